// Something asked of the server, kept while it is asked again, so that nothing flickers.
import { untrack } from 'svelte'
import { ServerError } from '../core/api'

export class Asked<T> {
  value = $state.raw<T | null>(null)
  error = $state<ServerError | null>(null)
  busy = $state(false)
  /** When the value that stands was asked for, by the tablet [ms]. */
  asked_at = $state(0)
  private turn = 0
  private stop: AbortController | null = null

  constructor(private readonly ask: (signal: AbortSignal) => Promise<T>) {}

  /** Asks anew; an older answer that comes late is dropped. An effect that calls this names what it
   *  depends on itself: nothing that is read here counts. */
  again(): Promise<void> {
    return untrack(() => this.once())
  }
  private async once(): Promise<void> {
    const turn = ++this.turn
    this.stop?.abort()
    const stop = new AbortController()
    this.stop = stop
    this.busy = true
    const sent = Date.now()
    try {
      const value = await this.ask(stop.signal)
      if (turn !== this.turn) return
      this.value = value
      this.asked_at = sent
      this.error = null
    } catch (fault) {
      if (turn !== this.turn || stop.signal.aborted) return
      if (!(fault instanceof ServerError)) throw fault
      this.error = fault
    } finally {
      if (turn === this.turn) this.busy = false
    }
  }
}
