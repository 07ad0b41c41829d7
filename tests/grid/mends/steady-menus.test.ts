import type { IMenuButtonItem, IMenuItem, IMenuSchema, IMenuSelectorItem } from "@univerjs/ui";
import { BehaviorSubject, Subject } from "rxjs";

import { SteadyMenuService } from "../../../src/grid/mends/steady-menus";

/** What stands in for the grid's own list of menus, which needs a browser. */
let menus: IMenuSchema[] = [];

jest.mock("@univerjs/ui", () => ({
  MenuManagerService: class {
    getMenuByPositionKey(): IMenuSchema[] {
      return menus;
    }
    getFlatMenuByPositionKey(): IMenuSchema[] {
      return menus;
    }
  },
}));

const service = Reflect.construct(SteadyMenuService, []) as SteadyMenuService;

/** The item as the grid's bar is handed it, from a group and from the flat list. */
function handed<Item extends IMenuItem>(item: Item): Item[] {
  menus = [{ key: "group", order: 1, title: "Group", children: [{ key: item.id, order: 0, item }] }];
  const grouped = service.getMenuByPositionKey("ribbon")[0];
  expect(grouped).toMatchObject({ key: "group", order: 1, title: "Group" });
  menus = [{ key: item.id, order: 0, item }];
  return [grouped?.children?.[0]?.item, service.getFlatMenuByPositionKey("ribbon")[0]?.item] as Item[];
}

test("a button hears what has changed, and not again what it knows", () => {
  const told = {
    disabled$: new Subject<boolean>(),
    hidden$: new Subject<boolean>(),
    activated$: new Subject<boolean>(),
  };
  const button: IMenuButtonItem = { id: "bold", type: 0, ...told };
  for (const item of handed(button)) {
    for (const name of ["disabled$", "hidden$", "activated$"] as const) {
      const heard: boolean[] = [];
      item[name]?.subscribe((value) => heard.push(value));
      for (const value of [false, false, true, true, true, false]) told[name].next(value);
      expect([name, heard]).toEqual([name, [false, true, false]]);
    }
  }
});

test("values, and those of the options below a button, are steady too", () => {
  const value$ = new BehaviorSubject<string | undefined>("left");
  const option$ = new BehaviorSubject<string | undefined>("red");
  const options = [{ label: "colours", value$: option$ }, { value: "none" }];
  const selector: IMenuSelectorItem<string | undefined, string | undefined> = { id: "align", type: 1, value$, selections: options }; // prettier-ignore
  for (const item of handed(selector)) {
    value$.next("left");
    option$.next("red");
    const heard: unknown[] = [];
    item.value$?.subscribe((value) => heard.push(value));
    const selections = item.selections as typeof options;
    selections[0]?.value$?.subscribe((value) => heard.push(value));
    value$.next("left");
    option$.next("red");
    value$.next("right");
    option$.next(undefined);
    expect(heard).toEqual(["left", "red", "right", undefined]);
    expect(selections[1]).toEqual({ value: "none" });
  }
});

test("an item that tells nothing stays as it is", () => {
  const item: IMenuButtonItem = { id: "print", type: 0, title: "Print" };
  expect(handed(item)).toEqual([item, item]);
});
