/** Variables by how much they took part in recent conflicts, the busiest first; ties go to the lowest index. */
export class ActivityHeap {
  private readonly activity: Float64Array;
  private readonly heap: Int32Array;
  /** Place of each variable in the heap, −1 when it is not in it. */
  private readonly place: Int32Array;
  private size = 0;
  private increment = 1;

  constructor(variables: number) {
    this.activity = new Float64Array(variables);
    this.heap = new Int32Array(variables);
    this.place = new Int32Array(variables).fill(-1);
    for (let x = 0; x < variables; x++) this.insert(x);
  }

  bump(x: number): void {
    this.activity[x]! += this.increment;
    if (this.activity[x]! > 1e100) {
      for (let y = 0; y < this.activity.length; y++) this.activity[y]! *= 1e-100;
      this.increment *= 1e-100;
    }
    if (this.place[x]! >= 0) this.up(this.place[x]!);
  }

  /** What was bumped before counts less from here on. */
  decay(): void {
    this.increment /= 0.95;
  }

  insert(x: number): void {
    if (this.place[x]! >= 0) return;
    this.place[x] = this.size;
    this.heap[this.size++] = x;
    this.up(this.size - 1);
  }

  /** Takes out the busiest variable; −1 when there is none. */
  pop(): number {
    if (this.size === 0) return -1;
    const top = this.heap[0]!;
    this.place[top] = -1;
    const moved = this.heap[--this.size]!;
    if (this.size > 0) {
      this.heap[0] = moved;
      this.place[moved] = 0;
      this.down(0);
    }
    return top;
  }

  private before(x: number, y: number): boolean {
    const [a, b] = [this.activity[x]!, this.activity[y]!];
    return a > b || (a === b && x < y);
  }

  private up(from: number): void {
    const { heap, place } = this;
    const x = heap[from]!;
    let at = from;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (!this.before(x, heap[parent]!)) break;
      heap[at] = heap[parent]!;
      place[heap[at]!] = at;
      at = parent;
    }
    heap[at] = x;
    place[x] = at;
  }

  private down(from: number): void {
    const { heap, place, size } = this;
    const x = heap[from]!;
    let at = from;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= size) break;
      if (child + 1 < size && this.before(heap[child + 1]!, heap[child]!)) child++;
      if (!this.before(heap[child]!, x)) break;
      heap[at] = heap[child]!;
      place[heap[at]!] = at;
      at = child;
    }
    heap[at] = x;
    place[x] = at;
  }
}
