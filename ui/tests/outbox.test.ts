import { describe, expect, it } from 'vitest'
import { Api, ServerError } from '../src/core/api'
import { Outbox, kHoldMs, type Write } from '../src/core/outbox'

/** A server that can be away, and a tablet that keeps what is not sent. */
function world() {
  let kept: Write[] = []
  const got: { path: string; key: string | null }[] = []
  let mode: 'up' | 'away' | 'refuse' = 'up'
  let clock = 0
  const refused: ServerError[] = []
  const api = new Api(async (path, init) => {
    if (mode === 'away') throw new TypeError('no network')
    got.push({ path, key: new Headers(init?.headers).get('Idempotency-Key') })
    return mode === 'refuse'
      ? new Response('{"error":{"what":"no","where":"body","mend":"mend it"}}', { status: 400 })
      : new Response('{}')
  })
  const make = () =>
    new Outbox(
      api,
      { load: () => structuredClone(kept), save: (writes) => (kept = structuredClone(writes)) },
      () => {},
      (_write, error) => refused.push(error),
      () => {},
      () => clock
    )
  return {
    make,
    got,
    refused,
    kept: () => kept,
    set: (next: typeof mode) => (mode = next),
    pass: (ms: number) => (clock += ms)
  }
}

describe('writes on their way', () => {
  it('survive a dead network and a reload, and count once', async () => {
    const w = world()
    w.set('away')
    const box = w.make()
    const write = box.add('/visits/1/facts', { facts: [] })
    await box.flush()
    expect(w.kept()).toHaveLength(1)
    const after = w.make() // the page was loaded again
    w.set('up')
    await after.flush()
    expect(w.got).toEqual([{ path: '/api/v1/visits/1/facts', key: write.key }])
    expect(w.kept()).toHaveLength(0)
  })
  it('stay in order', async () => {
    const w = world()
    const box = w.make()
    box.add('/a', {})
    box.add('/b', {})
    await box.flush()
    expect(w.got.map((one) => one.path)).toEqual(['/api/v1/a', '/api/v1/b'])
  })
  it('are given up when the server refuses them, and that is told', async () => {
    const w = world()
    w.set('refuse')
    const box = w.make()
    box.add('/a', {})
    await box.flush()
    expect(w.kept()).toHaveLength(0)
    expect(w.refused[0]?.message).toBe('no. mend it')
  })
  it('can be taken back for ten seconds, not after', async () => {
    const w = world()
    const box = w.make()
    const first = box.add('/a', {}, 'Roots on')
    await box.flush()
    expect(w.got).toHaveLength(0)
    expect(box.undo(first.key)).toBe(true)
    const second = box.add('/a', {}, 'Roots on')
    w.pass(kHoldMs + 1)
    await box.flush()
    expect(w.got).toHaveLength(1)
    expect(box.undo(second.key)).toBe(false)
  })
  it('are confirmed by the next action', async () => {
    const w = world()
    const box = w.make()
    box.add('/a', {}, 'Roots on')
    box.add('/b', {}, 'Ends on')
    await box.flush()
    expect(w.got.map((one) => one.path)).toEqual(['/api/v1/a'])
    box.release() // the page is left
    await box.flush()
    expect(w.got.map((one) => one.path)).toEqual(['/api/v1/a', '/api/v1/b'])
  })
})
