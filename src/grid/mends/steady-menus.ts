/**
 * After every edit the grid tells each button of its tool bar anew what it was told before: not disabled, not pressed. React
 * draws nothing for that, but keeps a record of each such word until the button is drawn again, which may be never:
 * some 600 bytes an edit. Here a button hears only what has changed.
 */
import { type IMenuItem, type IMenuSchema, MenuManagerService } from "@univerjs/ui";
import { distinctUntilChanged, type Observable } from "rxjs";

export class SteadyMenuService extends MenuManagerService {
  override getMenuByPositionKey(key: string): IMenuSchema[] {
    return super.getMenuByPositionKey(key).map(steadySchema);
  }

  override getFlatMenuByPositionKey(key: string): IMenuSchema[] {
    return super.getFlatMenuByPositionKey(key).map(steadySchema);
  }
}

function steadySchema(schema: IMenuSchema): IMenuSchema {
  const { item, children } = schema;
  return {
    ...schema,
    ...(item ? { item: steadyItem(item) } : {}),
    ...(children ? { children: children.map(steadySchema) } : {}),
  };
}

/** The item with each of its observables telling changes alone. */
function steadyItem<Item extends IMenuItem>(item: Item): Item {
  const steady: Record<string, unknown> = { ...item };
  for (const name of ["disabled$", "hidden$", "activated$", "value$"]) {
    const told = steady[name] as Observable<unknown> | undefined;
    if (told) steady[name] = told.pipe(distinctUntilChanged());
  }
  if ("selections" in item && Array.isArray(item.selections)) {
    steady["selections"] = item.selections.map((option) =>
      option.value$ ? { ...option, value$: option.value$.pipe(distinctUntilChanged()) } : option,
    );
  }
  return steady as unknown as Item;
}
