/** Pictures on their way in: read in turns. */
import { type Delivery, type Picture, Receiver } from './delivery.ts';
import { share, type Turns, type Unit } from './turns.ts';

/** One picture at a time: what comes later takes the place of what is not read yet. */
export class Incoming {
  private readonly receiver = new Receiver();
  private readonly turns: Turns;
  private readonly askForWhole: () => void;
  private readonly unit: Unit = { name: 'reading', draw: () => this.read(), place: () => null };
  private current: { readonly as: 'show' | 'whatIf'; readonly done: (picture: Picture) => void } | undefined;
  private lost = false;

  constructor(turns: Turns, askForWhole: () => void) {
    this.turns = turns;
    this.askForWhole = askForWhole;
  }

  take(delivery: Delivery, as: 'show' | 'whatIf', done: (picture: Picture) => void): void {
    // An answer comes on top of the picture of the text, not in its place.
    if (this.current?.as === 'show' && as === 'whatIf') this.finish();
    this.stop();
    if (!this.receiver.take(delivery)) {
      if (!this.lost) this.askForWhole();
      this.lost = true;
      return;
    }
    this.lost = false;
    this.current = { as, done };
    this.turns.wait(this.unit);
  }

  /** All that has come, at once. */
  finish(): void {
    const { current } = this;
    this.stop();
    current?.done(this.receiver.picture());
  }

  stop(): void {
    this.turns.leave(this.unit);
    this.current = undefined;
  }

  private read(): void {
    const until = performance.now() + share;
    if (this.receiver.read(() => performance.now() > until)) this.finish();
    else this.turns.wait(this.unit);
  }
}
