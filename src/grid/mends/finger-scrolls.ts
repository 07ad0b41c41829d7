/**
 * A finger on the sheet: a swipe scrolls it and glides on, a tap chooses a cell, two taps open it, a finger held still
 * chooses from there on as a mouse does with its button down, and held and let go opens the cell's menu. The grid, made
 * for a mouse, takes every swipe for the choice of a block of cells; its ways for fingers come only with another frame.
 */
import { ICommandService, type Injector, IUniverInstanceService, UniverInstanceType } from "@univerjs/core";
import { IRenderManagerService, type Scene, SHEET_VIEWPORT_KEY, Vector2 } from "@univerjs/engine-render";
import { SetScrollRelativeCommand } from "@univerjs/sheets-ui";
import { hasMethods, type Mend } from "./mend";

/** A finger that has moved less than this lies still. */
const STILL_PIXELS = 8;
/** How long a finger is held before it chooses. */
const HELD_MILLISECONDS = 450;
/** A swipe this much longer one way than the other goes that way alone. */
const ONE_WAY = 2;
/** In this time a glide loses all but a third of its speed. */
const GLIDE_MILLISECONDS = 300;
/** Slower than this, in pixels a millisecond, the sheet stands. */
const STANDING_SPEED = 0.02;
/** A finger that rested so long before it was lifted has stopped the sheet. */
const RESTED_MILLISECONDS = 80;
const RIGHT_BUTTON = 2;

interface Point {
  readonly x: number;
  readonly y: number;
}

interface Finger {
  readonly id: number;
  readonly canvas: HTMLCanvasElement;
  readonly start: Point;
  last: Point;
  lastTime: number;
  /** In pixels a millisecond, the latest moves weighing most. */
  speed: Point;
  /** What the finger does: not known yet, scrolls, or is the grid's own as a mouse would be. */
  does: "waits" | "scrolls" | "chooses";
  along: "across" | "down" | "both";
  hasMoved: boolean;
  held: ReturnType<typeof setTimeout>;
}

/** The sheet in sight as it is drawn. */
function drawnSheet(injector: Injector): { readonly canvas: HTMLCanvasElement; readonly scene: Scene } | null {
  const workbook = injector.get(IUniverInstanceService).getCurrentUnitOfType(UniverInstanceType.UNIVER_SHEET);
  const render = workbook && injector.get(IRenderManagerService).getRenderById(workbook.getUnitId());
  return render ? { canvas: render.engine.getCanvasElement(), scene: render.scene } : null;
}

/** Whether the point lies on one of the sheet's scroll bars, which the grid moves itself. */
function isOnScrollBar(scene: Scene, { offsetX, offsetY }: PointerEvent): boolean {
  const bar = scene.getViewport(SHEET_VIEWPORT_KEY.VIEW_MAIN)?.getScrollBar();
  return Boolean(bar?.pick(Vector2.FromArray([offsetX, offsetY])));
}

/** What the grid would have been told by a mouse at this place. */
function tell(canvas: HTMLCanvasElement, type: string, { x, y }: Point, button: number): void {
  const told = { bubbles: true, cancelable: true, composed: true, clientX: x, clientY: y, button };
  const buttons = type === "pointerup" ? 0 : button === RIGHT_BUTTON ? 2 : 1;
  canvas.dispatchEvent(
    new PointerEvent(type, { ...told, buttons, isPrimary: true, pointerId: 1, pointerType: "mouse" }),
  );
}

/** The sheet goes on by itself, slower and slower. */
function gliding(scroll: (by: Point) => void): { from(speed: Point): void; stop(): void } {
  let frame = 0;
  const goOn = (speed: Point, before: number): void => {
    frame = requestAnimationFrame((now) => {
      const passed = Math.max(0, now - before);
      const left = Math.exp(-passed / GLIDE_MILLISECONDS);
      scroll({ x: speed.x * passed, y: speed.y * passed });
      const slower = { x: speed.x * left, y: speed.y * left };
      if (Math.hypot(slower.x, slower.y) > STANDING_SPEED) goOn(slower, now);
    });
  };
  return { from: (speed) => goOn(speed, performance.now()), stop: () => cancelAnimationFrame(frame) };
}

function scrollByFinger(injector: Injector): void {
  const commands = injector.get(ICommandService);
  let finger: Finger | null = null;

  const scroll = (by: Point): void => {
    const scale = Math.abs(drawnSheet(injector)?.scene.scaleX ?? 1) || 1;
    void commands.executeCommand(SetScrollRelativeCommand.id, { offsetX: -by.x / scale, offsetY: -by.y / scale });
  };
  const glide = gliding(scroll);
  const letGo = (): void => {
    if (finger !== null) clearTimeout(finger.held);
    finger = null;
  };

  const down = (event: PointerEvent): void => {
    if (event.pointerType !== "touch" || !event.isTrusted) return;
    glide.stop();
    const drawn = drawnSheet(injector);
    if (drawn === null || event.target !== drawn.canvas) return;
    // A second finger neither scrolls nor chooses.
    if (finger !== null || !event.isPrimary) return event.stopImmediatePropagation();
    if (isOnScrollBar(drawn.scene, event)) return;
    event.stopImmediatePropagation();
    const start = { x: event.clientX, y: event.clientY };
    const now: Finger = {
      id: event.pointerId,
      canvas: drawn.canvas,
      start,
      last: start,
      lastTime: event.timeStamp,
      speed: { x: 0, y: 0 },
      does: "waits",
      along: "both",
      hasMoved: false,
      held: setTimeout(() => {
        now.does = "chooses";
        tell(now.canvas, "pointerdown", now.start, 0);
      }, HELD_MILLISECONDS),
    };
    finger = now;
  };

  const move = (event: PointerEvent): void => {
    if (finger?.id !== event.pointerId || !event.isTrusted) return;
    event.stopImmediatePropagation();
    const at = { x: event.clientX, y: event.clientY };
    const [x, y] = [at.x - finger.start.x, at.y - finger.start.y];
    finger.hasMoved ||= Math.hypot(x, y) > STILL_PIXELS;
    if (!finger.hasMoved) return;
    if (finger.does === "chooses") return tell(finger.canvas, "pointermove", at, 0);
    if (finger.does === "waits") {
      clearTimeout(finger.held);
      finger.does = "scrolls";
      const [across, along] = [Math.abs(x), Math.abs(y)];
      finger.along = across > ONE_WAY * along ? "across" : along > ONE_WAY * across ? "down" : "both";
    }
    const by = {
      x: finger.along === "down" ? 0 : at.x - finger.last.x,
      y: finger.along === "across" ? 0 : at.y - finger.last.y,
    };
    scroll(by);
    const passed = Math.max(1, event.timeStamp - finger.lastTime);
    const speed = (former: number, way: number): number => 0.3 * former + (0.7 * way) / passed;
    finger.speed = { x: speed(finger.speed.x, by.x), y: speed(finger.speed.y, by.y) };
    finger.last = at;
    finger.lastTime = event.timeStamp;
  };

  const up = (event: PointerEvent): void => {
    if (finger?.id !== event.pointerId || !event.isTrusted) return;
    event.stopImmediatePropagation();
    const { canvas, does, start, lastTime, speed, hasMoved } = finger;
    letGo();
    const at = { x: event.clientX, y: event.clientY };
    if (does === "waits") {
      tell(canvas, "pointerdown", start, 0);
      tell(canvas, "pointerup", start, 0);
    } else if (does === "chooses") {
      tell(canvas, "pointerup", hasMoved ? at : start, 0);
      if (hasMoved) return;
      tell(canvas, "pointerdown", start, RIGHT_BUTTON);
      tell(canvas, "pointerup", start, RIGHT_BUTTON);
    } else if (event.timeStamp - lastTime < RESTED_MILLISECONDS && !lessMotion.matches) {
      glide.from(speed);
    }
  };

  const cancel = (event: PointerEvent): void => {
    if (finger?.id !== event.pointerId) return;
    if (finger.does === "chooses") tell(finger.canvas, "pointerup", finger.last, 0);
    letGo();
  };

  const lessMotion = window.matchMedia("(prefers-reduced-motion: reduce)");
  const capture = { capture: true } as const;
  window.addEventListener("pointerdown", down, capture);
  window.addEventListener("pointermove", move, capture);
  window.addEventListener("pointerup", up, capture);
  window.addEventListener("pointercancel", cancel, capture);
  // A finger held still would bring the browser's own menu, and take the finger away from the sheet.
  window.addEventListener("contextmenu", (event) => finger !== null && event.preventDefault(), capture);
}

/** For the list of mends. */
export const fingerScrolls: Mend<"injector"> = {
  name: "finger-scrolls",
  why: "A finger could not scroll the sheet: every swipe would choose a block of cells.",
  until: "The grid scrolls by a finger in the frame that it has for a window with a mouse.",
  isNeeded: (injector) => {
    const drawn = drawnSheet(injector);
    return (
      drawn !== null &&
      hasMethods(drawn.scene.getViewport(SHEET_VIEWPORT_KEY.VIEW_MAIN)?.getScrollBar(), "pick") &&
      injector.get(ICommandService).hasCommand(SetScrollRelativeCommand.id)
    );
  },
  apply: ({ injector }) => scrollByFinger(injector),
};
