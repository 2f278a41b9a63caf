// What the whole page shares: who this device is, whether the server answers, its clock, what
// changed, what is not saved yet. One stream of events feeds it.
import { Api, ServerError } from '../core/api'
import { ServerClock, isoLike } from '../core/clock'
import { Outbox, browserKeep, type Write } from '../core/outbox'
import type { Fact, Me, Salon } from '../core/types'
import { placeOf, type Place } from '../core/place'
import { language } from '../words/language'

const kTickMs = 250
const kRetryMs = 3000
const kSaidMs = 6000
const kSettleMs = 60_000

class Session {
  readonly api = new Api(undefined, language)
  readonly clock = new ServerClock()
  readonly outbox: Outbox

  /** 'asking' until the server said whether it knows this device. */
  state = $state<'asking' | 'stranger' | 'paired'>('asking')
  me = $state<Me | null>(null)
  online = $state(true)
  place = $state<Place>({ parts: [], query: {} })
  /** Server time now [ms]; moves four times a second. */
  now = $state(Date.now())
  waiting = $state<Write[]>([])
  private settling = $state.raw<{ write: Write; at: number }[]>([])
  said = $state('')
  wiped_until = $state(0)
  private versions = $state<Record<string, number>>({})
  private likeMoment = '2000-01-01T00:00:00+00:00'
  private said_at = 0

  constructor() {
    this.outbox = new Outbox(
      this.api,
      browserKeep('huewright-not-sent'),
      (writes) => (this.waiting = writes),
      (_write, error) => this.say(error.message),
      (write) => {
        const at = Date.now()
        this.settling = [
          ...this.settling.filter((one) => at - one.at < kSettleMs),
          { write, at }
        ]
        // The server tells it too; this only spares the wait.
        const [, about = '', id = ''] = write.path.split('/')
        const word = { visits: 'visit', clients: 'client', shelf: 'product' }[about]
        if (word) this.bump(word, id)
      }
    )
    this.waiting = this.outbox.writes
  }

  /** Writes about something that an answer asked for at this tablet time [ms] cannot know yet. */
  onTheWay(about: string, asked_at: number): Write[] {
    const sent = this.settling.filter((one) => one.at > asked_at).map((one) => one.write)
    return [...sent, ...this.waiting].filter((write) => write.path.includes(about))
  }

  get salon(): Salon {
    return this.me?.salon ?? {}
  }
  get currency(): string {
    return this.salon.currency ?? ''
  }
  can(role: 'colourist' | 'owner'): boolean {
    const mine = this.me?.device.role
    return mine === 'owner' || (mine === 'colourist' && role === 'colourist')
  }

  /** The moment of the server as a fact states it. */
  moment(ms = this.clock.now()): string {
    return isoLike(ms, this.likeMoment)
  }
  today = $derived(this.moment(this.now).slice(0, 10))

  heard(now: string, sent_ms?: number): void {
    this.clock.heard(now, sent_ms)
    this.likeMoment = now
    this.now = this.clock.now()
  }

  version(about: string, id = ''): number {
    return (this.versions[`${about}/${id}`] ?? 0) + (this.versions['all/'] ?? 0)
  }
  bump(about: string, id = ''): void {
    for (const key of new Set([`${about}/${id}`, `${about}/`])) {
      this.versions[key] = (this.versions[key] ?? 0) + 1
    }
  }

  /** A line at the foot that goes by itself; nothing waits for it. */
  say(line: string): void {
    this.said = line
    this.said_at = Date.now()
  }

  async start(): Promise<void> {
    const walk = () => (this.place = placeOf(location.hash))
    walk()
    window.addEventListener('hashchange', walk)
    setInterval(() => this.tick(), kTickMs)
    const leave = () => {
      this.outbox.release()
      void this.outbox.flush()
    }
    window.addEventListener('pagehide', leave)
    await this.greet()
  }

  private tick(): void {
    this.now = this.clock.now()
    if (this.said && Date.now() - this.said_at > kSaidMs) this.said = ''
    if (this.outbox.ready && this.state === 'paired' && this.online) void this.outbox.flush()
  }

  /** Asks the server who we are; keeps asking while it is away. */
  async greet(): Promise<void> {
    const sent = Date.now()
    try {
      this.me = await this.api.get<Me>('/me')
      this.heard(this.me.now, sent)
      this.state = 'paired'
      this.online = true
      this.listen()
    } catch (fault) {
      if (!(fault instanceof ServerError)) throw fault
      if (fault.status === 401) {
        this.state = 'stranger'
        this.online = true
        return
      }
      this.online = false
      setTimeout(() => void this.greet(), kRetryMs)
    }
  }

  async refreshMe(): Promise<void> {
    this.me = await this.api.get<Me>('/me')
    this.heard(this.me.now)
  }

  private stream: EventSource | null = null
  private listen(): void {
    this.stream?.close()
    const stream = new EventSource('/api/v1/events')
    this.stream = stream
    let lost = false
    stream.addEventListener('open', () => {
      this.online = true
      // What happened while nobody listened is unknown, so everything is read again.
      if (lost) this.bump('all')
      lost = false
      void this.outbox.flush()
    })
    stream.addEventListener('changed', (event) => {
      const told = JSON.parse((event as MessageEvent<string>).data) as { about: string; id: string }
      this.bump(told.about, told.id)
      if (told.about === 'salon') void this.refreshMe().catch(() => {})
    })
    stream.addEventListener('clock', (event) => {
      this.heard((JSON.parse((event as MessageEvent<string>).data) as { now: string }).now)
    })
    stream.addEventListener('error', () => {
      this.online = false
      lost = true
      if (stream.readyState === EventSource.CLOSED && this.stream === stream) {
        this.stream = null
        setTimeout(() => void this.greet(), kRetryMs)
      }
    })
  }

  /** Writes facts: kept until the server has them. hold: can be taken back for ten seconds. */
  record(path: string, facts: Fact[], hold?: string): void {
    const at = this.moment()
    const dated = facts.map((one) => ({ at, ...one }))
    this.outbox.add(path, { facts: dated }, hold)
    if (!hold) void this.outbox.flush()
    else void this.flushBefore()
  }
  /** What was held before the newest write is on its way now. */
  private async flushBefore(): Promise<void> {
    await this.outbox.flush()
  }

  async saved(): Promise<void> {
    this.outbox.release()
    await this.outbox.flush()
  }
}

export const session = new Session()
export const go = (hash: string): void => {
  location.hash = hash
}
