// The tablet's clock may be wrong by a day; the server's is the one that counts. Every answer that
// carries a moment says how far the two lie apart.

/** Server time minus tablet time, from the answer that travelled fastest in the last while. */
export class ServerClock {
  private offset_ms = 0
  private known = false
  private doubt_ms = Infinity
  private at_ms = 0

  constructor(private readonly tablet: () => number = () => Date.now()) {}

  /** now: the server's moment. sent_ms: tablet time when it was asked, if that is known. */
  heard(now: string, sent_ms?: number): void {
    const moment = Date.parse(now)
    if (Number.isNaN(moment)) return
    const here = this.tablet()
    const travel = sent_ms === undefined ? 500 : Math.max(0, here - sent_ms)
    const offset = moment - (here - travel / 2)
    // A jump of the tablet's own clock makes every older answer worthless.
    const jumped = Math.abs(offset - this.offset_ms) > 5000
    const old = here - this.at_ms > 60_000 || here < this.at_ms
    if (this.known && !jumped && !old && travel > this.doubt_ms) return
    this.offset_ms = offset
    this.doubt_ms = travel
    this.at_ms = here
    this.known = true
  }

  /** Milliseconds since 1970 by the server. */
  now(): number {
    return this.tablet() + this.offset_ms
  }
  get offset(): number {
    return this.offset_ms
  }
}

/** Seconds until a moment; negative when it has passed; null where there is none. */
export function secondsUntil(moment: string | undefined | null, now_ms: number): number | null {
  if (!moment) return null
  const at = Date.parse(moment)
  return Number.isNaN(at) ? null : Math.round((at - now_ms) / 1000)
}

const kMinutesInHours = 100

/** "4:05" for 245 s, "62:00" for 3720 s, as minutes are spoken of at the chair; from 100 minutes on
 *  "1 h 42"; a true minus before what has passed. */
export function countdown(seconds: number): string {
  const sign = seconds < 0 ? '−' : ''
  const whole = Math.abs(Math.round(seconds))
  const s = String(whole % 60).padStart(2, '0')
  const m = Math.floor(whole / 60)
  if (m < kMinutesInHours) return `${sign}${m}:${s}`
  return `${sign}${Math.floor(m / 60)} h ${String(m % 60).padStart(2, '0')}`
}

/** "14:05" on the wall of the salon: the digits of the moment itself, whatever the tablet's zone. */
export function wallTime(moment: string | undefined | null): string {
  const found = moment?.match(/T(\d\d:\d\d)/)
  return found?.[1] ?? ''
}

const two = (n: number) => String(n).padStart(2, '0')

/** ISO 8601 with an offset, on the offset of `like` (a moment of the server). */
export function isoLike(ms: number, like: string): string {
  const zone = like.match(/(Z|([+-])(\d\d):?(\d\d))$/)
  const sign = zone?.[2] === '-' ? -1 : 1
  const offset = zone?.[3] ? sign * (Number(zone[3]) * 60 + Number(zone[4])) : 0
  const at = new Date(ms + offset * 60_000)
  const day = `${at.getUTCFullYear()}-${two(at.getUTCMonth() + 1)}-${two(at.getUTCDate())}`
  const time = `${two(at.getUTCHours())}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())}`
  const tail = `${offset < 0 ? '-' : '+'}${two(Math.floor(Math.abs(offset) / 60))}:${two(Math.abs(offset) % 60)}`
  return `${day}T${time}${tail}`
}

/** "2025-05-14", the day of a moment as the server wrote it. */
export const dayOf = (moment: string): string => moment.slice(0, 10)

export function addDays(day: string, days: number): string {
  const at = new Date(`${day}T12:00:00Z`)
  at.setUTCDate(at.getUTCDate() + days)
  return at.toISOString().slice(0, 10)
}
