import { describe, expect, it } from 'vitest'
import { ServerClock, addDays, countdown, isoLike, secondsUntil, wallTime } from '../src/core/clock'

describe('the server clock', () => {
  it('counts by the server however wrong the tablet is', () => {
    let tablet = Date.parse('2025-05-13T08:00:00Z') // a day and two hours behind
    const clock = new ServerClock(() => tablet)
    clock.heard('2025-05-14T12:00:00+02:00', tablet - 200)
    tablet += 60_000
    const deadline = '2025-05-14T12:02:00+02:00'
    expect(secondsUntil(deadline, clock.now())).toBe(60)
  })

  it('halves the way there and back', () => {
    let tablet = 1_000_000
    const clock = new ServerClock(() => tablet)
    tablet += 400
    clock.heard(new Date(2_000_200).toISOString(), 1_000_000)
    expect(clock.now()).toBe(2_000_200 + 200)
  })

  it('keeps the answer that travelled fastest, until a jump', () => {
    let tablet = 1_000_000
    const clock = new ServerClock(() => tablet)
    clock.heard(new Date(2_000_000).toISOString(), tablet - 20)
    const offset = clock.offset
    tablet += 1000
    clock.heard(new Date(2_001_900).toISOString(), tablet - 2000) // slow, 0.9 s off
    expect(clock.offset).toBe(offset)
    tablet += 3_600_000 // somebody set the tablet's clock an hour on
    clock.heard(new Date(2_002_000).toISOString(), tablet - 3000)
    expect(Math.abs(clock.now() - 2_002_000)).toBeLessThan(2000)
  })

  it('takes no moment that is none', () => {
    const clock = new ServerClock(() => 5)
    clock.heard('soon')
    expect(clock.now()).toBe(5)
    expect(secondsUntil('', 0)).toBeNull()
    expect(secondsUntil(undefined, 0)).toBeNull()
    expect(secondsUntil('soon', 0)).toBeNull()
  })
})

describe('moments and times in words', () => {
  it('shows a countdown and what is past', () => {
    expect(countdown(245)).toBe('4:05')
    expect(countdown(0)).toBe('0:00')
    expect(countdown(-61)).toBe('−1:01')
    expect(countdown(3720)).toBe('62:00')
    expect(countdown(6120)).toBe('1 h 42')
  })
  it('writes a moment on the offset of the salon', () => {
    const ms = Date.parse('2025-05-14T10:00:05Z')
    expect(isoLike(ms, '2020-01-01T00:00:00+02:00')).toBe('2025-05-14T12:00:05+02:00')
    expect(isoLike(ms, '2020-01-01T00:00:00-03:30')).toBe('2025-05-14T06:30:05-03:30')
    expect(isoLike(ms, '2020-01-01T00:00:00Z')).toBe('2025-05-14T10:00:05+00:00')
    for (const like of ['x+05:45', 'x-09:30', 'xZ']) {
      expect(Date.parse(isoLike(ms, like))).toBe(ms)
    }
  })
  it('reads the wall clock off the moment, whatever the tablet thinks', () => {
    expect(wallTime('2025-05-14T23:58:00-08:00')).toBe('23:58')
    expect(wallTime('')).toBe('')
  })
  it('adds days over months and summer time', () => {
    expect(addDays('2025-03-29', 2)).toBe('2025-03-31')
    expect(addDays('2024-02-28', 1)).toBe('2024-02-29')
    expect(addDays('2025-01-01', -1)).toBe('2024-12-31')
  })
})
