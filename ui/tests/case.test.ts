import { describe, expect, it } from 'vitest'
import {
  addSection, dropSection, dropZone, kLeastZoneCm, missing, monthsAt, newCase, sectionsOf,
  splitZone, withBorder, withLevel, withStretch, zonesIn
} from '../src/core/case'
import type { Case } from '../src/core/types'

/** Zones of every section touch each other from the scalp on and have their names alone. */
function isWhole(head: Case): boolean {
  const names = head.zones.map((zone) => zone.name)
  if (new Set(names).size !== names.length) return false
  return sectionsOf(head).every((section) => {
    let at = 0
    return zonesIn(head, section).every((zone) => {
      const fits = zone.from_cm === at && zone.to_cm - zone.from_cm >= kLeastZoneCm - 1e-9
      at = zone.to_cm
      return fits
    })
  })
}

describe('zones', () => {
  it('stay whole whatever is done to them', () => {
    // A small generator of the same numbers every time: any order of changes must hold.
    let seed = 7
    const draw = (n: number) => (seed = (seed * 1103515245 + 12345) % 2147483648) % n
    let head = newCase()
    for (let i = 0; i < 600; ++i) {
      const name = head.zones[draw(head.zones.length)]!.name
      const section = ['nape', 'crown', 'rest'][draw(3)]!
      const what = draw(5)
      if (what === 0) head = withBorder(head, name, draw(400) / 10)
      if (what === 1) head = splitZone(head, name)
      if (what === 2) head = dropZone(head, name)
      if (what === 3) head = addSection(head, section)
      if (what === 4) head = dropSection(head, section)
      expect(isWhole(head), `step ${i}`).toBe(true)
      expect(head.zones.length).toBeLessThanOrEqual(12)
    }
  })
  it('give way at a shared border', () => {
    const head = withBorder(newCase(), 'roots', 3.5)
    expect(head.zones.map((zone) => [zone.from_cm, zone.to_cm])).toEqual([[0, 3.5], [3.5, 15], [15, 20]])
    expect(withBorder(head, 'roots', 40).zones[0]?.to_cm).toBe(15 - kLeastZoneCm)
  })
  it('become the rest when a section is read apart, and one head again', () => {
    const apart = addSection(newCase(), 'nape')
    expect(sectionsOf(apart)).toEqual(['rest', 'nape'])
    expect(apart.zones.map((zone) => zone.name)).toContain('nape roots')
    expect(dropSection(apart, 'nape')).toEqual(newCase())
  })
  it('leave the head they came from alone', () => {
    const head = newCase()
    withLevel(splitZone(head, 'ends'), 'ends', 7)
    expect(head).toEqual(newCase())
  })
  it('have their months by growth', () => {
    const head = { ...newCase(), habits: { growth_um_per_day: 1e4 / (365.25 / 12) } }
    expect(monthsAt(head, 6)).toBeCloseTo(6)
  })
})

describe('what is missing', () => {
  it('is the wish and the stretch of a new head', () => {
    expect(missing(newCase())).toEqual(['target', 'stretch'])
    const names = newCase().zones.map((zone) => zone.name)
    const head = withStretch({ ...newCase(), target: { look: 'auburn' } }, names, 'springs_back')
    expect(missing(head)).toEqual([])
    expect(missing(withStretch(head, ['ends'], 'not_tested'))).toEqual(['stretch'])
  })
})
