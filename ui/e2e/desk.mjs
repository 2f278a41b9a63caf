// Away from the chair: letting a device in, a client, a card, the shelf.
import assert from 'node:assert/strict'
import { createHash, X509Certificate } from 'node:crypto'
import { spawn } from 'node:child_process'
import { get } from 'node:http'
import { connect } from 'node:tls'
import { join } from 'node:path'
import { kPatienceMs, kSizes } from './world.mjs'

async function pairing(world) {
  const owner = world.owner
  await owner.go('salon')
  await owner.tap('Let a device in')
  const code = (await owner.page.locator('.code').textContent()).trim()
  assert.match(code, /^\d{6}$/)
  await owner.page.getByRole('img', { name: /Square code/ }).waitFor()
  const context = await world.browser.newContext({ viewport: { width: kSizes.phone[0], height: kSizes.phone[1] } })
  const page = await context.newPage()
  await page.goto(`${world.base}/#code=${code}`)
  assert.equal(await page.getByLabel('Code').inputValue(), code)
  await page.getByLabel('What this device is called').fill('phone of Mira')
  await page.getByRole('button', { name: 'Let in' }).click()
  await page.getByRole('heading', { name: 'Today' }).waitFor()
  // The same code lets nobody else in.
  const other = await (await world.browser.newContext()).newPage()
  await other.goto(`${world.base}/#code=${code}`)
  await other.getByRole('button', { name: 'Let in' }).click()
  await other.getByRole('alert').waitFor()
  await owner.go('today')
  await owner.go('salon')
  await owner.sees('phone of Mira')
  await other.context().close()
  await context.close()
}

/** The authority's certificate, as a tablet fetches it. */
const fetched = (port, path) =>
  new Promise((done, failed) => {
    get({ host: '127.0.0.1', port, path }, (answer) => {
      const parts = []
      answer.on('data', (part) => parts.push(part))
      answer.on('end', () => done(Buffer.concat(parts)))
    }).on('error', failed)
  })

/** A tablet on the salon's network: it trusts the authority, then a code lets it in over HTTPS. */
async function lan(world) {
  if (!world.lanProgram) return 'left out: no --lan PROGRAM'
  const server = spawn(world.lanProgram, [join(world.folder, 'lan')], { stdio: ['ignore', 'pipe', 'inherit'] })
  try {
    const [, tls, trust, code] = await new Promise((done, failed) => {
      let said = ''
      server.stdout.on('data', (text) => {
        const found = (said += text).match(/lan (\d+) (\d+) (\S+)/)
        if (found) done(found)
      })
      server.on('exit', (status) => failed(new Error(`the server ended with ${status}: ${said}`)))
    })
    const authority = new X509Certificate(await fetched(trust, '/huewright-authority.crt'))
    assert.match(String(await fetched(trust, '/')), /huewright-authority\.crt/)
    // The chain and the name hold for whoever trusts the authority, and for nobody else.
    const offered = await new Promise((done, failed) => {
      const wire = connect({ host: '127.0.0.1', port: tls, servername: 'desk', ca: authority.toString() }, () => {
        done(wire.getPeerX509Certificate())
        wire.destroy()
      }).on('error', failed)
    })
    assert.ok(offered.checkIssued(authority))
    await assert.rejects(
      new Promise((done, failed) => connect({ host: '127.0.0.1', port: tls, servername: 'desk' }, done).on('error', failed))
    )
    // The browser is told to trust this one authority, by its key.
    const pin = createHash('sha256').update(authority.publicKey.export({ type: 'spki', format: 'der' })).digest('base64')
    const browser = await world.launch([`--ignore-certificate-errors-spki-list=${pin}`])
    try {
      const context = await browser.newContext({ viewport: { width: kSizes.tablet[0], height: kSizes.tablet[1] } })
      const page = await context.newPage()
      page.setDefaultTimeout(kPatienceMs)
      await page.goto(`https://127.0.0.1:${tls}/`)
      await page.getByLabel('Code').fill(code)
      await page.getByLabel('What this device is called').fill('tablet by the basin')
      await page.getByRole('button', { name: 'Let in' }).click()
      await page.getByRole('heading', { name: 'Today' }).waitFor()
      assert.ok(await page.evaluate(() => isSecureContext), 'no secure context: the screen would sleep')
      const cookie = (await context.cookies()).find((one) => one.name.endsWith('huewright'))
      assert.ok(cookie.secure && cookie.httpOnly && cookie.name.startsWith('__Host-'))
      await page.reload()
      await page.getByRole('heading', { name: 'Today' }).waitFor()
    } finally {
      await browser.close()
    }
  } finally {
    server.removeAllListeners('exit')
    server.kill('SIGTERM')
  }
}

async function client(world) {
  const owner = world.owner
  await owner.go('clients')
  await owner.page.getByRole('searchbox').fill('Lena Ark')
  await owner.sees('Nobody here is called')
  owner.taps = 0
  await owner.tap('New client')
  assert.equal(await owner.page.getByLabel('Name', { exact: true }).inputValue(), 'Lena Ark')
  await owner.page.getByLabel('Phone').fill('0155 0277')
  await owner.tap('Save')
  await owner.page.getByRole('heading', { name: 'Lena Ark' }).waitFor()
  await owner.sees('No reaction or block is on record')
  await owner.tap('Add a reaction or block')
  await owner.tap('Black tattoo')
  await owner.page.getByLabel('What happened').fill('blisters on a holiday')
  await owner.tap('Save')
  await owner.sees('blisters on a holiday')
  await owner.go('clients')
  await owner.page.getByRole('searchbox').fill('0277')
  await owner.link(/Lena Ark/).click()
  await owner.sees('blisters on a holiday')
  return `${owner.taps} taps for a new client with a block`
}

async function card(world) {
  const owner = world.owner
  await owner.go('clients/card')
  owner.taps = 0
  await owner.page.getByLabel('Name', { exact: true }).fill('Rosa Kell')
  await owner.page.getByLabel('Last visit').fill('2024-05-02')
  await owner.tap('permanent colour')
  await owner.tap('relaxed')
  await owner.page.getByLabel(/Formula/).fill('walnut, one to one, 30 minutes')
  await owner.tap('Hair dye')
  await owner.tap('Keep this card')
  await owner.page.getByRole('heading', { name: 'Rosa Kell' }).waitFor()
  await owner.sees('hair dye')
  return `${owner.taps} taps`
}

async function shelf(world) {
  const owner = world.owner
  await owner.go('shelf')
  owner.taps = 0
  await owner.tap('New product')
  await owner.tap('level 6, dark blond')
  await owner.tap('copper')
  await owner.page.getByLabel('Line').fill('house cream')
  await owner.tap('On the shelf')
  await owner.page.locator('button[aria-expanded=false]', { hasText: 'New product' }).waitFor()
  await owner.sees('copper dark blond, house cream')
  await owner.tap(/copper dark blond, house cream/)
  await owner.page.getByLabel('Grams here, g').fill('55')
  await owner.page.getByLabel('Grams here, g').press('Enter')
  await owner.tap(/^Counted$/)
  await owner.page.getByRole('button', { name: /copper dark blond, house cream.*55 g/ }).waitFor()
  return `${owner.taps} taps with a count`
}

async function rights(world) {
  const helper = await world.device('phone of the helper', 'assistant', kSizes.phone)
  await helper.go('salon')
  await helper.sees('Only an owner changes these')
  await helper.go('shelf')
  await helper.page.getByRole('heading', { name: 'Shelf' }).waitFor()
  assert.equal(await helper.page.getByRole('button', { name: 'New product' }).count(), 0)
  await helper.context.close()
}

/** A range for somebody who asks, without keeping anything. */
async function enquiry(world) {
  const owner = world.owner
  const before = (await owner.api('GET', '/clients?find=')).clients?.length
  await owner.go('enquiry')
  owner.taps = 0
  await owner.tap('level 2, darkest brown')
  await owner.tap(owner.page.getByRole('button', { name: 'chestnut', exact: true }))
  await owner.tap('Work out a range')
  await owner.sees('How to arrive')
  await owner.sees(/Put on by \d+ \w+ \d{4}/)
  const figures = await owner.page.locator('.facts .figure').allTextContents()
  const [low, high] = figures[1].match(/\d+/g).map(Number)
  assert.ok(low > 0 && low <= high, figures.join(' | '))
  assert.equal((await owner.api('GET', '/clients?find=')).clients?.length, before)
  return `${owner.taps} taps: ${figures.join(' | ')}`
}

/** Two courses on one strand: what is dragged shows at once, in the chart and in words. */
async function workbench(world) {
  const d = await world.device('laptop at the desk', 'colourist', kSizes.laptop)
  await d.go('workbench')
  const first = d.page.getByRole('region', { name: 'First course' })
  const second = d.page.getByRole('region', { name: 'Second course' })
  await first.locator('canvas').waitFor()
  await second.locator('canvas').waitFor()
  const levelIn = async (side) => Number((await side.locator('.ground .small').first().textContent()).match(/level ([\d.]+)/)[1])
  await d.settled()
  const was = await levelIn(first)
  const other = await levelIn(second)
  const slider = d.page.getByRole('slider', { name: 'Minutes on the hair, min' })
  await slider.focus()
  for (let i = 0; i < 20; ++i) await d.page.keyboard.press('ArrowRight')
  await d.until(async () => (await levelIn(first)) > was, 'longer does not lift further')
  assert.equal(await levelIn(second), other)
  await d.sees('They differ in:')
  await d.tap('Make both alike')
  await d.sees('Both are alike')
  await d.settled()
  assert.equal(await levelIn(second), await levelIn(first))
  // What is dragged, until it is painted: the browser's own event times.
  await d.page.evaluate(() => {
    window.paints = []
    new MutationObserver(() => {
      const at = window.asked
      if (at) requestAnimationFrame(() => window.paints.push(performance.now() - at))
      window.asked = 0
    }).observe(document.querySelector('.ground .small'), { characterData: true, subtree: true, childList: true })
    document.querySelector('input[type=range]').addEventListener('input', (event) => (window.asked ||= event.timeStamp), { capture: true })
  })
  const strength = d.page.getByRole('slider').first()
  const box = await strength.boundingBox()
  await d.page.mouse.move(box.x + box.width * 0.45, box.y + box.height / 2)
  await d.page.mouse.down()
  for (let i = 0; i < 40; ++i) {
    await d.page.mouse.move(box.x + box.width * (0.2 + (0.6 * i) / 40), box.y + box.height / 2)
    await d.page.waitForTimeout(60) // the pace of a hand
  }
  await d.page.mouse.up()
  await d.settled()
  const times = (await d.page.evaluate(() => window.paints)).sort((a, b) => a - b)
  const p95 = times[Math.floor(times.length * 0.95)] ?? 0
  // The colour over it.
  await d.tap(d.page.getByRole('button', { name: 'copper', exact: true }))
  await d.page.getByText('After the colour').first().waitFor()
  await d.context.close()
  world.measured.bench_paint_ms = p95
  return `input to new chart p95 ${p95.toFixed(0)} ms over ${times.length} answers`
}

/** Evidence of the visit that was finished here. */
async function evidence(world) {
  const d = await world.device('desk of the colourist', 'colourist', kSizes.laptop)
  await d.go('evidence')
  const { all } = await d.api('GET', '/evidence')
  if (all.count) {
    await d.sees(`${(all.held * 10).toFixed(1)} in 10`)
    await d.page.getByRole('img', { name: /Found beside expected/ }).waitFor()
  } else {
    await d.sees('No outcome has been read')
  }
  await d.context.close()
  const helper = await world.device('tablet of the helper', 'assistant', kSizes.tablet)
  await helper.go('evidence')
  await helper.sees('Colourists and owners see this')
  await helper.context.close()
  return `${all.count} zones`
}

export const later = [
  ['an enquiry keeps nothing', enquiry],
  ['two courses on the workbench', workbench],
  ['evidence of what came out', evidence]
]

export const scenarios = [
  ['a device is let in by a code', pairing],
  ['a tablet is let in by a code over HTTPS', lan],
  ['a new client, found again by number, with a block that cannot be missed', client],
  ['an old paper card', card],
  ['a shade on the shelf', shelf],
  ['a helper sees no keys of the owner', rights]
]
