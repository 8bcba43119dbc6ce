// Dragging a pass from one list to another, with pointer or finger: what is dragged, where it hangs, and over which list.
// Lists carry data-drop; what is dropped on one is told its name.
export interface Dragged {
  key: string;
  words: string;
}

export class Drag {
  what = $state.raw<Dragged>();
  x = $state(0);
  y = $state(0);
  over = $state<string>();

  #from: { x: number; y: number; what: Dragged } | undefined;
  #scroll = 0;
  #frame: number | undefined;

  constructor(private readonly dropped: (key: string, onto: string) => void) {}

  down(event: PointerEvent, what: Dragged): void {
    if (event.pointerType === "mouse" && event.button !== 0) return;
    this.#from = { x: event.clientX, y: event.clientY, what };
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
  }

  move(event: PointerEvent): void {
    if (!this.#from) return;
    const { clientX: x, clientY: y } = event;
    if (!this.what && Math.hypot(x - this.#from.x, y - this.#from.y) < 8) return;
    this.what = this.#from.what;
    [this.x, this.y] = [x, y];
    this.#look();
    const edge = 70;
    this.#scroll = y < edge ? -12 : y > innerHeight - edge ? 12 : 0;
    if (this.#scroll !== 0 && this.#frame === undefined) this.#roll();
  }

  // True if something was dragged: then the press was no click.
  up(event: PointerEvent): boolean {
    const what = this.what;
    const over = this.over;
    this.stop();
    if (!what) return false;
    if (event.type === "pointerup" && over !== undefined) this.dropped(what.key, over);
    return true;
  }

  stop(): void {
    this.#from = undefined;
    this.what = undefined;
    this.over = undefined;
    this.#scroll = 0;
  }

  #look(): void {
    const list = document.elementFromPoint(this.x, this.y)?.closest<HTMLElement>("[data-drop]");
    this.over = list?.dataset.drop;
  }

  #roll(): void {
    this.#frame = requestAnimationFrame(() => {
      this.#frame = undefined;
      if (this.#scroll === 0 || !this.what) return;
      scrollBy(0, this.#scroll);
      this.#look();
      this.#roll();
    });
  }
}
