import { describe, expect, it } from 'vitest'
import { newCase } from '../src/core/case'
import { readingsBefore } from '../src/core/facts'
import { kMostPoints, movedPoint, nearPoint, simplified, splitAt, withPoint, withoutPoint } from '../src/core/line'
import { withPhoto } from '../src/core/photo'
import type { CaseReading, PhotoZone } from '../src/core/types'

const reading = (l: number): CaseReading => ({
  by: 'photo',
  lab: [l, 5, 10],
  covariance: [2, 0, 0, 0, 1, 0, 0, 0, 1]
})
const zone = (from_cm: number, to_cm: number, l: number): PhotoZone => ({
  from_share: from_cm / 30,
  to_share: to_cm / 30,
  from_cm,
  to_cm,
  lab: [l, 5, 10],
  sd: [1.4, 1, 1],
  spread: [1, 1, 1],
  words: '',
  paint: { srgb: '#000000' },
  level: 3,
  level_low: 2,
  level_high: 4,
  reading: reading(l)
})

describe('zones from a photo', () => {
  it('take borders and readings, and leave what was felt and told with the hair', () => {
    const head = newCase()
    const told = {
      ...head,
      target: { look: 'plum' },
      zones: head.zones.map((one) => ({
        ...one,
        white_percent: one.name === 'roots' ? 20 : 0,
        facts: { stretch: { worst: 'springs_back' as const, strands: 5, places: 3 } },
        ...(one.name === 'ends' ? { past: { lightened: 2 } } : {})
      }))
    }
    const next = withPhoto(told, '', [zone(0, 3.04, 20), zone(3.04, 18.26, 30), zone(18.26, 30, 45)])
    expect(next.zones.map((one) => [one.name, one.from_cm, one.to_cm])).toEqual([
      ['roots', 0, 3],
      ['lengths', 3, 18.3],
      ['ends', 18.3, 30]
    ])
    expect(next.zones.map((one) => one.readings)).toEqual([[reading(20)], [reading(30)], [reading(45)]])
    expect(next.zones.map((one) => one.white_percent)).toEqual([20, 0, 0])
    expect(next.zones[2]?.past).toEqual({ lightened: 2 })
    expect(next.zones.every((one) => one.facts?.stretch?.worst === 'springs_back')).toBe(true)
    expect(next.target).toEqual({ look: 'plum' })
    expect(told.zones[0]?.to_cm).toBe(2) // the old head is left alone
  })

  it('name stretches by their place when there are more or fewer than before', () => {
    const names = (cuts: number[]) =>
      withPhoto(newCase(), '', cuts.slice(1).map((to, i) => zone(cuts[i] ?? 0, to, 20 + i))).zones.map((one) => one.name)
    expect(names([0, 30])).toEqual(['lengths'])
    expect(names([0, 4, 30])).toEqual(['roots', 'ends'])
    expect(names([0, 4, 10, 20, 25, 30])).toEqual(['roots', 'lengths', 'lower lengths', 'lower lengths 2', 'ends'])
  })

  it('stay in their section and leave the others as they are', () => {
    const head = newCase()
    const nape = { name: 'nape lengths', section: 'nape', from_cm: 0, to_cm: 12, readings: [{ level: 2 }] }
    const two = { ...head, zones: [...head.zones.map((one) => ({ ...one, section: 'rest', name: `rest ${one.name}` })), nape] }
    const next = withPhoto(two, 'rest', [zone(0, 5, 20), zone(5, 30, 40)])
    expect(next.zones.map((one) => [one.section, one.name])).toEqual([
      ['rest', 'rest roots'],
      ['rest', 'rest ends'],
      ['nape', 'nape lengths']
    ])
  })

  it('join what is too short to be a zone', () => {
    const next = withPhoto(newCase(), '', [zone(0, 5, 20), zone(5, 5.3, 50), zone(5.3, 12, 30)])
    expect(next.zones.map((one) => [one.from_cm, one.to_cm])).toEqual([[0, 5.3], [5.3, 12]])
  })

  it('are written down as what the photo read', () => {
    const facts = readingsBefore(withPhoto(newCase(), '', [zone(0, 30, 33)]))
    expect(facts).toEqual([
      { kind: 'reading', body: { zone: 'lengths', when: 'before', lab: [33, 5, 10], reader: 'photo', seen: 'dry' } }
    ])
  })
})

describe('a line on a picture', () => {
  const line = [{ x: 0.1, y: 0.1 }, { x: 0.5, y: 0.5 }, { x: 0.9, y: 0.9 }]
  it('stays inside the picture', () => {
    expect(withPoint([], { x: 1.4, y: -0.2 })).toEqual([{ x: 1, y: 0 }])
    expect(movedPoint(line, 1, { x: 2, y: 0.4 })[1]).toEqual({ x: 1, y: 0.4 })
    expect(withoutPoint(line, 1)).toEqual([line[0], line[2]])
  })
  it('is begun and cut by keys alone', () => {
    const one = splitAt([], 0)
    const two = splitAt(one.line, one.index)
    expect(two.line.length).toBe(2)
    expect(two.index).toBe(1)
    const three = splitAt(two.line, two.index)
    expect(three.line[1]?.y).toBeCloseTo(((two.line[0]?.y ?? 0) + (two.line[1]?.y ?? 0)) / 2)
  })
  it('is taken hold of where a finger lands near a point', () => {
    expect(nearPoint(line, { x: 0.52, y: 0.5 }, 400, 300, 30)).toBe(1)
    expect(nearPoint(line, { x: 0.7, y: 0.5 }, 400, 300, 30)).toBe(-1)
  })
  it('keeps the bends of a stroke and no more', () => {
    const stroke = Array.from({ length: 200 }, (_, i) => {
      const t = i / 199
      return t < 0.5 ? { x: 0.2 + 0.4 * t, y: t } : { x: 0.4 - 0.2 * (t - 0.5), y: t }
    })
    const few = simplified(stroke, 800, 600, 3)
    expect(few.length).toBeLessThan(6)
    expect(few[0]).toEqual(stroke[0])
    expect(few.at(-1)).toEqual(stroke.at(-1))
    const wild = Array.from({ length: 900 }, (_, i) => ({ x: (i % 2) * 0.9, y: i / 899 }))
    expect(simplified(wild, 800, 600, 1).length).toBeLessThanOrEqual(kMostPoints)
  })
})
