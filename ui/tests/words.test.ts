import { describe, expect, it } from 'vitest'
import looks from '../../data/plan/looks.csv?raw'
import { Api } from '../src/core/api'
import { bareWords } from '../src/core/numbers'
import { everyWords, type Words } from '../src/words'
import { languageOf } from '../src/words/language'
import { zoneName } from '../src/words/zones'

/** What a function of texts may be given: a number, or a word that some texts look up. */
const kGiven = ['7', 'stop', 'xyz'] as const
const kCounts = [0, 1, 2, 5] as const

type Leaf = { at: string; what: unknown }
function leaves(what: unknown, at = ''): Leaf[] {
  if (typeof what !== 'object' || what === null) return [{ at, what }]
  return Object.entries(what).flatMap(([key, one]) => leaves(one, at ? `${at}.${key}` : key))
}
const isValue = (at: string) => at.endsWith('.value')

/** All that a text can say: itself, or what it makes of words and of counts. */
function said(what: unknown): string[] {
  if (typeof what === 'string') return [what]
  if (typeof what !== 'function') return []
  const give = what as (...given: unknown[]) => string
  const fill = (one: unknown) => Array.from({ length: give.length }, () => one)
  return [...kGiven, ...kCounts].flatMap((one) => {
    try {
      return [give(...fill(one))]
    } catch {
      return [] // a count where a word is meant
    }
  })
}

// The same word in both languages, or no word at all; a list that has more than it needs fails.
const kAlike: Record<string, string[]> = {
  es: ['%', ': ', 'A4', 'Demi', 'Huewright', 'Natural', 'Plan', 'cm', 'g', 'g/g', 'min', 'mm', 'twists', 'beige', 'chocolate'],
  fr: [
    '%', 'A4', 'Clients', 'Code', 'Demi', 'Huewright', 'Notes', 'Plan', 'Salon', 'Section', 'Source',
    'Zone', 'cm', 'g', 'g/g', 'gloss', 'min', 'mm', 'photo', 'replay.minute', 'violet', 'aubergine', 'auburn',
    'beige', 'bronze', 'caramel', 'champagne', 'toffee'
  ],
  pt: ['%', ': ', 'A4', 'Demi', 'Huewright', 'Natural', 'cm', 'g', 'g/g', 'min', 'mm', 'twists', 'bronze', 'chocolate', 'toffee']
}
/** Figures alone, which no language changes. */
const kFigures = ['shelf.left', 'shelf.shade']

const english = leaves(everyWords.en)
const others = (['es', 'fr', 'pt'] as const).map((code) => [code, everyWords[code]] as const)

describe.each(others)('the texts in %s', (code, words: Words) => {
  const mine = leaves(words)
  const of = new Map(mine.map((one) => [one.at, one.what]))

  it('are those of English, of the same kinds', () => {
    expect(mine.map((one) => one.at).sort()).toEqual(english.map((one) => one.at).sort())
    for (const { at, what } of english) {
      expect([at, typeof of.get(at)]).toEqual([at, typeof what])
      if (typeof what === 'function') {
        expect([at, (of.get(at) as { length: number }).length]).toEqual([at, what.length])
      }
    }
  })

  it('leave alone what is no text', () => {
    for (const { at, what } of english) {
      if (isValue(at) || typeof what === 'number') expect([at, of.get(at)]).toEqual([at, what])
    }
  })

  it('say something, with all that they were given', () => {
    for (const { at, what } of english) {
      if (isValue(at)) continue
      const here = said(of.get(at))
      for (const one of here) expect([at, one.trim() !== '' && !one.includes('undefined')]).toEqual([at, true])
      if (typeof what !== 'function') continue
      const given = Array.from({ length: what.length }, (_, i) => `«${i}»`)
      const there = (what as (...all: string[]) => string)(...given)
      const text = (of.get(at) as (...all: string[]) => string)(...given)
      for (const one of given) expect([at, one, text.includes(one)]).toEqual([at, one, there.includes(one)])
    }
  })

  it('are no English left over', () => {
    const alike = english
      .filter(({ at, what }) => !isValue(at) && !kFigures.includes(at) && typeof what !== 'number')
      .filter(({ at, what }) => {
        const there = said(of.get(at))
        return there.length > 0 && there.every((one, i) => one === said(what)[i])
      })
      .map(({ at, what }) => (typeof what === 'string' ? what : at))
    expect([...new Set(alike)].sort()).toEqual([...(kAlike[code] ?? [])].sort())
  })

  it('never say that something is safe', () => {
    const safe = /\b(safe|segur[oa]s?|sûre?s?|sans (danger|risque)|sin (peligro|riesgo)|sem (perigo|risco)|inofensiv)/i
    for (const { at, what } of mine) {
      if (!isValue(at)) for (const one of said(what)) expect([at, safe.test(one)]).toEqual([at, false])
    }
  })
})

it('has words for every look that the program brings', () => {
  const rows = looks.split('\n').filter((line) => line && !line.startsWith('#'))
  const names = rows.slice(1).map((line) => line.split(',')[0])
  expect(names.length).toBeGreaterThan(20)
  expect(Object.keys(everyWords.en.looks)).toEqual(names)
})

it('sets French with its no-break spaces', () => {
  // Imprimerie nationale, Lexique des règles typographiques: a no-break space before : ; ! ? and %
  for (const { at, what } of leaves(everyWords.fr)) {
    if (isValue(at)) continue
    for (const one of said(what)) expect([at, / [:;!?%»]|[a-zé][;!?]/.test(one)]).toEqual([at, false])
  }
})

describe('the language', () => {
  it('is the chosen one, else the browser’s by its first part, else English', () => {
    expect(languageOf('fr', ['es-MX'])).toBe('fr')
    expect(languageOf(null, ['pt-BR', 'en'])).toBe('pt')
    expect(languageOf(null, ['de-AT', 'ES-419'])).toBe('es')
    expect(languageOf('tlh', ['de'])).toBe('en')
    expect(languageOf(null, [])).toBe('en')
  })

  it('goes with every request', async () => {
    const got: (string | null)[] = []
    const api = new Api(async (_path, init) => {
      got.push(new Headers(init?.headers).get('Accept-Language'))
      return new Response('{}')
    }, 'pt')
    await api.get('/me')
    await api.post('/x', {}, 'key')
    await api.postPhoto('/x', new Blob())
    expect(got).toEqual(['pt', 'pt', 'pt'])
  })

  it('names the usual zones and leaves others alone', () => {
    expect(zoneName('lower nape lengths 2')).toBe('lower nape lengths 2')
    expect(zoneName('roots', everyWords.es)).toBe('raíces')
    expect(zoneName('nape roots', everyWords.pt)).toBe('raízes, nuca')
    expect(zoneName('lower ends 2', everyWords.fr)).toBe('pointes (bas) 2')
    expect(zoneName('crown', everyWords.fr)).toBe('sommet')
    expect(zoneName('left money piece', everyWords.fr)).toBe('left money piece')
  })

  it('leaves the level away before the words of a colour', () => {
    expect(bareWords('level 6.5, dark blond')).toBe('dark blond')
    expect(bareWords('hauteur 6,5, blond foncé')).toBe('blond foncé')
    expect(bareWords('nível 7, louro')).toBe('louro')
  })
})
