import { describe, expect, it } from 'vitest'
import { acrossAt, bytesOf, minuteAt, spaced, ticks, touched, withAlpha } from '../src/core/chart'
import { canvasRead } from '../src/core/canvas'
import { GhostTouches } from '../src/core/ghost'
import { hours, toStep } from '../src/core/numbers'
import { cssColour, isBeyond } from '../src/core/paint'
import { codeOf, placeOf, to } from '../src/core/place'
import { idFrom } from '../src/core/product'
import type { Chart, Course, Visit } from '../src/core/types'

// Two hours of which the second is folded to a quarter.
const chart: Chart = {
  columns: 3,
  rows: 4,
  axis: [{ minute: 0, across: 0 }, { minute: 60, across: 0.8 }, { minute: 120, across: 1 }],
  minute: [0, 37.5, 120],
  cm: [0, 2, 2, 20],
  bands: [{ zone: 'roots', first_row: 0, rows: 2 }, { zone: 'ends', first_row: 2, rows: 2 }],
  srgb: btoa('abcdef'),
  level: [1, 2, 3, 1, 2, 3, 4, 5, 6, 4, 5, 6],
  lines: [], steps: [], events: [], checks_min: [], phases: []
}

describe('a strand chart', () => {
  it('finds a minute on folded time and back', () => {
    expect(acrossAt(chart, 30)).toBeCloseTo(0.4)
    expect(acrossAt(chart, 90)).toBeCloseTo(0.9)
    for (const minute of [0, 10, 60, 75, 120]) {
      expect(minuteAt(chart, acrossAt(chart, minute))).toBeCloseTo(minute)
    }
    expect(acrossAt(chart, 500)).toBe(1)
  })
  it('tells what lies under a finger', () => {
    expect(touched(chart, 0.5, 0.02)).toMatchObject({ zone: 'roots', level: 2, minute: 37.5 })
    expect(touched(chart, 1, 1)).toMatchObject({ zone: 'ends', level: 6, cm: 20 })
  })
  it('unpacks its points', () => {
    expect([...withAlpha(bytesOf(chart.srgb))]).toEqual([97, 98, 99, 255, 100, 101, 102, 255])
  })
  it('keeps ticks and labels apart', () => {
    expect(ticks(chart, 0.25)).toEqual([0, 30, 60])
    expect(spaced([1, 2, 9, 10, 30], (n) => n, 5)).toEqual([1, 9, 30])
  })
})

describe('a colour', () => {
  const paint = { srgb: '#663322', p3: [0.4, 0.2, 0.1] as [number, number, number], in_srgb: false, in_p3: true }
  it('is wide where the screen is, and says where it is not the hair', () => {
    expect(cssColour(paint, false)).toBe('#663322')
    expect(cssColour(paint, true)).toBe('color(display-p3 0.4000 0.2000 0.1000)')
    expect(isBeyond(paint, false)).toBe(true)
    expect(isBeyond(paint, true)).toBe(false)
    expect(cssColour(null)).toBe('transparent')
  })
})

describe('the canvas', () => {
  const bowl = (purpose: string) => ({ visit: 1, purpose, items: [], zones: [{ zone: 'roots' }] })
  const course = { bowls: [bowl('lift'), bowl('deposit')] } as unknown as Course
  const visit = (facts: object[]) => ({ facts }) as unknown as Visit
  const rinse = { kind: 'rinse', at: '2025-05-14T11:00:00Z', body: {} }
  const read = (at: string, seen = 'dry') => ({ kind: 'reading', at, body: { zone: 'roots', seen } })
  it('is read dry after the rinse, before the colour', () => {
    expect(canvasRead(visit([]), course, 0)).toBe(true)
    expect(canvasRead(visit([]), course, 1)).toBe(false)
    expect(canvasRead(visit([read('2025-05-14T10:00:00Z'), rinse]), course, 1)).toBe(false)
    expect(canvasRead(visit([rinse, read('2025-05-14T11:20:00Z', 'wet')]), course, 1)).toBe(false)
    expect(canvasRead(visit([rinse, read('2025-05-14T11:20:00Z')]), course, 1)).toBe(true)
  })
})

describe('a wet screen', () => {
  it('takes one touch of two at once', () => {
    const ghosts = new GhostTouches()
    ghosts.touch(1000, 10, 10)
    expect(ghosts.isGhost(10, 10)).toBe(false)
    ghosts.touch(1100, 300, 300)
    expect(ghosts.isGhost(300, 300)).toBe(true)
    ghosts.touch(1400, 300, 300)
    expect(ghosts.isGhost(300, 300)).toBe(false)
    ghosts.touch(1450, 305, 300) // the same finger again
    expect(ghosts.isGhost(305, 300)).toBe(false)
  })
})

describe('small things', () => {
  it('walks by address', () => {
    expect(placeOf('#/visits/a%20b/plan?x=1')).toEqual({ parts: ['visits', 'a b', 'plan'], query: { x: '1' } })
    expect(placeOf(to('visits', 'a b')).parts).toEqual(['visits', 'a b'])
    expect(placeOf('').parts).toEqual([])
    expect(codeOf('#code=482913')).toBe('482913')
    expect(codeOf('#/today')).toBeNull()
  })
  it('says hours, rounds to steps, names products', () => {
    expect(hours(366)).toBe('6 h 05')
    expect(hours(42)).toBe('40 min')
    expect(toStep(0.1 + 0.2, 0.1)).toBe(0.3)
    expect(idFrom('Déep rëd, house démi!')).toBe('deep-red-house-demi')
    expect(idFrom('—')).toBe('product')
  })
})
