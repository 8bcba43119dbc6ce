// Long work of the server for one ride: how far it is, found again after a reload, cancelled if wanted.
import type { Problem } from "../engine/calls";
import type { RideStore, Task, TaskKind } from "../storage/ride_store";

const often_ms = 400;
const seldom_ms = 3000; // while the server does not answer

const isOver = (task: Task): boolean => task.state === "done" || task.state === "failed" || task.state === "cancelled";

export class TaskWatch {
  tasks = $state.raw<Task[]>([]);
  problems = $state.raw<Problem[]>([]);
  said = $state<TaskKind>(); // what was done last, to be said
  running = $derived.by(() => this.tasks.filter((task) => !isOver(task)));

  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly ride: string,
    private readonly store: Pick<RideStore, "startTask" | "tasksOf" | "cancelTask">,
    private readonly done: (task: Task) => void,
  ) {}

  async start(kind: TaskKind): Promise<void> {
    const started = await this.store.startTask(this.ride, kind);
    this.problems = started.ok ? [] : started.problems;
    if (started.ok) this.tasks = [started.value, ...this.tasks.filter(({ id }) => id !== started.value.id)];
    await this.find();
  }

  async cancel(id: string): Promise<void> {
    const cancelled = await this.store.cancelTask(id);
    if (!cancelled.ok) this.problems = cancelled.problems;
    await this.find();
  }

  async find(): Promise<void> {
    clearTimeout(this.#timer);
    const found = await this.store.tasksOf(this.ride);
    if (found.ok) {
      const wereRunning = new Set(this.running.map(({ id }) => id));
      this.tasks = found.value;
      for (const task of found.value) {
        if (!isOver(task) || !wereRunning.has(task.id)) continue;
        if (task.state === "done") this.said = task.kind;
        this.done(task);
      }
    }
    if (this.running.length > 0) this.#timer = setTimeout(() => void this.find(), found.ok ? often_ms : seldom_ms);
  }

  close(): void {
    clearTimeout(this.#timer);
  }
}
