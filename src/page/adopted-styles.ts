/**
 * Stands in for `react-style-singleton` in the page's bundle (see webpack.config.js). The grid's dialogs come with a
 * few rules of style, which that package writes into a `<style>` element; the page's Content-Security-Policy refuses
 * it. A sheet made by a script is no inline style.
 */
import { useEffect } from "react";

export interface SharedSheet {
  add(rules: string): void;
  remove(): void;
}

/** One sheet for all who add to it; it goes when the last one has removed it. */
export function stylesheetSingleton(): SharedSheet {
  let users = 0;
  let sheet: CSSStyleSheet | undefined;
  return {
    add: (rules) => {
      users += 1;
      if (sheet !== undefined) return;
      sheet = new CSSStyleSheet();
      sheet.replaceSync(rules);
      document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
    },
    remove: () => {
      users -= 1;
      if (users > 0 || sheet === undefined) return;
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((adopted) => adopted !== sheet);
      sheet = undefined;
    },
  };
}

type UseStyle = (rules: string, dynamic?: boolean) => void;

export function styleHookSingleton(): UseStyle {
  const sheet = stylesheetSingleton();
  return function useStyle(rules, dynamic) {
    useEffect(() => {
      sheet.add(rules);
      return () => sheet.remove();
    }, [dynamic === true ? rules : ""]);
  };
}

export function styleSingleton(): (properties: { readonly styles: string; readonly dynamic?: boolean }) => null {
  const useStyle = styleHookSingleton();
  return function Sheet({ styles, dynamic }) {
    useStyle(styles, dynamic);
    return null;
  };
}
