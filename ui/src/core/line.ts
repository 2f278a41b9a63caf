// A line drawn on a picture, as shares of its width and height. Every function gives a new line.
import { clamp } from './numbers'

export interface Point { x: number; y: number }

/** As many as the server reads. */
export const kMostPoints = 100
const kFewest = 2

const held = (point: Point): Point => ({ x: clamp(point.x, 0, 1), y: clamp(point.y, 0, 1) })
/** How far apart in pixels of a picture this large. */
export const apart = (a: Point, b: Point, width: number, height: number): number =>
  Math.hypot((a.x - b.x) * width, (a.y - b.y) * height)

export const withPoint = (line: Point[], at: Point): Point[] =>
  line.length >= kMostPoints ? line : [...line, held(at)]

export const movedPoint = (line: Point[], index: number, to: Point): Point[] =>
  line.map((point, i) => (i === index ? held(to) : point))

export const withoutPoint = (line: Point[], index: number): Point[] =>
  line.filter((_, i) => i !== index)

/** A point more, half-way to the next; after the last, half-way back to the one before. */
export function splitAt(line: Point[], index: number): { line: Point[]; index: number } {
  if (line.length === 0) return { line: [{ x: 0.5, y: 0.25 }], index: 0 }
  if (line.length === 1) {
    const only = line[0] as Point
    return { line: [only, held({ x: only.x, y: only.y + 0.5 })], index: 1 }
  }
  if (line.length >= kMostPoints) return { line, index }
  const first = Math.min(index, line.length - 2)
  const [a, b] = [line[first] as Point, line[first + 1] as Point]
  const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }
  return { line: [...line.slice(0, first + 1), middle, ...line.slice(first + 1)], index: first + 1 }
}

/** The nearest point within reach [pixels]; -1: none. */
export function nearPoint(line: Point[], at: Point, width: number, height: number, reach: number): number {
  let best = -1
  let least = reach
  line.forEach((point, i) => {
    const far = apart(point, at, width, height)
    if (far <= least) {
      least = far
      best = i
    }
  })
  return best
}

/** How far a point lies beside the piece from a to b [pixels]. */
function beside(point: Point, a: Point, b: Point, width: number, height: number): number {
  const [dx, dy] = [(b.x - a.x) * width, (b.y - a.y) * height]
  const [px, py] = [(point.x - a.x) * width, (point.y - a.y) * height]
  const long = dx * dx + dy * dy
  const t = long > 0 ? clamp((px * dx + py * dy) / long, 0, 1) : 0
  return Math.hypot(px - t * dx, py - t * dy)
}

/** A stroke as few points that lie no further from it than `loose` [pixels] (Douglas and Peucker 1973). */
export function simplified(stroke: Point[], width: number, height: number, loose: number): Point[] {
  if (stroke.length <= kFewest) return stroke.map(held)
  const keep = new Set([0, stroke.length - 1])
  const pieces: [number, number][] = [[0, stroke.length - 1]]
  for (let piece = pieces.pop(); piece; piece = pieces.pop()) {
    const [from, to] = piece
    let worst = -1
    let most = loose
    for (let i = from + 1; i < to; ++i) {
      const far = beside(stroke[i] as Point, stroke[from] as Point, stroke[to] as Point, width, height)
      if (far > most) {
        most = far
        worst = i
      }
    }
    if (worst < 0) continue
    keep.add(worst)
    pieces.push([from, worst], [worst, to])
  }
  const line = stroke.filter((_, i) => keep.has(i)).map(held)
  return line.length > kMostPoints ? simplified(stroke, width, height, 2 * loose) : line
}
