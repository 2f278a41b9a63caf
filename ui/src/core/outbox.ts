// Writes that are on their way. A write has a key, so that sending it twice counts once; it waits
// here until the server has it, through a reload or a dead network, and the page says how many
// are not saved yet. A held write waits until its undo time is over or the next one comes.
import { ServerError, freshKey, type Api } from './api'

export interface Write {
  key: string
  path: string
  body: unknown
  held_until?: number // tablet time [ms]
  label?: string // what is undone: "Roots on"
}
export interface Keep {
  load(): Write[]
  save(writes: Write[]): void
}

export const kHoldMs = 10_000
/** After a server that is away or busy, the next try waits this long. */
export const kPauseMs = 2000

export class Outbox {
  writes: Write[]
  private not_before = 0
  private sending: Promise<void> | null = null

  constructor(
    private readonly api: Api,
    private readonly keep: Keep,
    private readonly told: (writes: Write[]) => void = () => {},
    private readonly refused: (write: Write, error: ServerError) => void = () => {},
    private readonly sent: (write: Write) => void = () => {},
    private readonly tablet: () => number = () => Date.now()
  ) {
    this.writes = keep.load()
  }

  private changed(): void {
    this.keep.save(this.writes)
    this.told([...this.writes])
  }

  add(path: string, body: unknown, hold?: string): Write {
    // The next action confirms the one before it.
    for (const write of this.writes) delete write.held_until
    const write: Write = { key: freshKey(), path, body }
    if (hold) {
      write.held_until = this.tablet() + kHoldMs
      write.label = hold
    }
    this.writes.push(write)
    this.changed()
    return write
  }

  /** Takes back a write that still waits; false when it has gone. */
  undo(key: string): boolean {
    const at = this.writes.findIndex((write) => write.key === key && write.held_until)
    if (at < 0) return false
    this.writes.splice(at, 1)
    this.changed()
    return true
  }

  release(): void {
    for (const write of this.writes) delete write.held_until
    this.changed()
  }

  /** Whether something can go out now. */
  get ready(): boolean {
    const first = this.writes[0]
    const now = this.tablet()
    return Boolean(first && !(first.held_until && first.held_until > now)) && now >= this.not_before
  }

  /** Sends what is ready, in order; stops at the first that finds no server. */
  flush(): Promise<void> {
    this.sending ??= this.run().finally(() => (this.sending = null))
    return this.sending
  }

  private async run(): Promise<void> {
    for (;;) {
      const first = this.writes[0]
      if (!first || (first.held_until && first.held_until > this.tablet())) return
      // Once it is on its way it cannot be taken back.
      delete first.held_until
      this.changed()
      try {
        await this.api.post(first.path, first.body, first.key)
      } catch (fault) {
        if (!(fault instanceof ServerError)) throw fault
        if (fault.away || fault.status >= 500 || fault.status === 429 || fault.status === 401) {
          this.not_before = this.tablet() + kPauseMs
          return
        }
        this.refused(first, fault)
      }
      this.writes = this.writes.filter((write) => write.key !== first.key)
      this.changed()
      this.sent(first)
    }
  }
}

/** Kept in the browser until sent; a full or forbidden store only costs surviving a reload. */
export function browserKeep(name: string): Keep {
  return {
    load() {
      try {
        return JSON.parse(localStorage.getItem(name) ?? '[]') as Write[]
      } catch {
        return []
      }
    },
    save(writes) {
      try {
        if (writes.length) localStorage.setItem(name, JSON.stringify(writes))
        else localStorage.removeItem(name)
      } catch {
        return
      }
    }
  }
}
