/**
 * When a button is pressed and let go, by finger, mouse or key, to the millisecond: a click would come only afterwards.
 * A screen reader makes clicks alone; they are told apart and reported as such.
 */
interface PressListener {
  pressed(seconds: number): void;
  /** Let go over the button, or anywhere else. */
  released?(seconds: number): void;
  /** The press came to nothing: the page scrolled, or lost the focus. */
  abandoned?(): void;
  /** A click without a press before it. */
  clicked(seconds: number): void;
}

export function listenToPresses(button: HTMLElement, listener: PressListener): void {
  let pressedBy: number | string | null = null;
  let lastPress = -Infinity;
  const secondsOf = (event: Event): number => event.timeStamp / 1000;

  const press = (by: number | string, event: Event): void => {
    if (pressedBy !== null) return;
    pressedBy = by;
    listener.pressed(secondsOf(event));
  };
  const release = (by: number | string, event: Event): void => {
    if (pressedBy !== by) return;
    pressedBy = null;
    lastPress = event.timeStamp;
    listener.released?.(secondsOf(event));
  };
  const abandon = (): void => {
    if (pressedBy === null) return;
    pressedBy = null;
    listener.abandoned?.();
  };
  const isKey = ({ key }: KeyboardEvent): boolean => key === " " || key === "Enter";

  button.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    // Let go beside the button is let go all the same.
    button.setPointerCapture(event.pointerId);
    press(event.pointerId, event);
  });
  button.addEventListener("pointerup", (event) => release(event.pointerId, event));
  button.addEventListener("pointercancel", abandon);
  button.addEventListener("keydown", (event) => {
    if (!isKey(event)) return;
    event.preventDefault();
    if (!event.repeat) press(event.key, event);
  });
  button.addEventListener("keyup", (event) => {
    if (!isKey(event)) return;
    event.preventDefault();
    release(event.key, event);
  });
  button.addEventListener("blur", abandon);
  // Holding a finger down is the measurement, not a wish for a menu.
  button.addEventListener("contextmenu", (event) => event.preventDefault());
  button.addEventListener("click", (event) => {
    // The click that a press brings along follows it at once, if it comes at all.
    const ofPress = pressedBy !== null || event.timeStamp - lastPress < 400;
    lastPress = -Infinity;
    if (!ofPress) listener.clicked(secondsOf(event));
  });
}
