// Zones have names in the book; the usual ones are said in the language of the page. A name that
// somebody made up stays as it is.
import { words, type Words } from '.'

const kShape = /^(lower )?(?:(nape|back|crown|sides|hairline|rest) )?(lower )?(.+?)( \d+)?$/

/** "nape lower lengths 2" as said in this language; a section alone as well. */
export function zoneName(name: string, w: Words = words): string {
  const [, above, section, below, bare, number] = name.match(kShape) ?? []
  const said = w.zone.names[bare ?? '']
  if (!said) return name
  const part = below ? w.zone.lower(said) : said
  const placed = section ? w.zone.of(w.zone.names[section] ?? section, part) : part
  return (above ? w.zone.lower(placed) : placed) + (number ?? '')
}
