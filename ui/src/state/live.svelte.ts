// Something asked while a value is being dragged: one question at a time, and after it the newest
// one only, so that answers keep coming and none is thrown away.
import { ServerError } from '../core/api'

export class Live<Q, A> {
  value = $state.raw<A | null>(null)
  error = $state<ServerError | null>(null)
  private busy = false
  private next: Q | null = null

  constructor(private readonly ask: (question: Q) => Promise<A>) {}

  put(question: Q): void {
    this.next = question
    if (!this.busy) void this.run()
  }
  private async run(): Promise<void> {
    this.busy = true
    while (this.next !== null) {
      const question = this.next
      this.next = null
      try {
        this.value = await this.ask(question)
        this.error = null
      } catch (fault) {
        if (!(fault instanceof ServerError)) throw fault
        this.error = fault
      }
    }
    this.busy = false
  }
}
