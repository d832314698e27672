/** Runs something once things have been quiet for a while; a newer call replaces one that waits. */

// The library of the workspace is that of Node; in a browser timers are numbers, and only handed back.
type Timer = ReturnType<typeof setTimeout>;

export class Later {
  private readonly milliseconds: number;
  private timer: Timer | undefined;

  constructor(milliseconds: number) {
    this.milliseconds = milliseconds;
  }

  run(work: () => void, milliseconds = this.milliseconds): void {
    this.dispose();
    this.timer = setTimeout(work, milliseconds);
  }

  dispose(): void {
    if (this.timer !== undefined) clearTimeout(this.timer);
    this.timer = undefined;
  }
}
