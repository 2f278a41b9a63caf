// What every screen must keep: nothing that axe finds, every control large enough and apart.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
export const kLeastPx = 56
export const kGapPx = 12

// Doses, times and warnings are read from an arm's length and further: WCAG 2.2, 1.4.6 (7:1, large 4.5:1).
const kFromAfar = '.dose, .product, .figure, .total, .finding, [role=timer], [role=alert]'

export async function axeFindings(page) {
  await page.evaluate(axe)
  const violations = await page.evaluate(async (afar) => {
    const all = await window.axe.run(document, { resultTypes: ['violations'] })
    const include = [...document.querySelectorAll(afar)].filter((node) => node.checkVisibility())
    if (!include.length) return all.violations
    const options = { runOnly: ['color-contrast-enhanced'], resultTypes: ['violations'] }
    const strict = await window.axe.run({ include }, options)
    return [...all.violations, ...strict.violations]
  }, kFromAfar)
  return violations
    .map((one) => `${one.id}: ${one.nodes.slice(0, 3).map((node) => `${node.target} ${node.any[0]?.message ?? ''}`).join(' | ')}`)
}

/** Controls that are too small, and pairs too near, in words. */
export function misfits(page) {
  return page.evaluate(
    ([least, gap]) => {
      const asked = 'a[href], button, input, select, textarea, summary, [tabindex="0"]'
      const seen = []
      for (const node of document.querySelectorAll(asked)) {
        // A file is chosen by its label, which is the box that is touched.
        const box = node.matches('input[type=file]') ? node.closest('label') : node
        const rect = box.getBoundingClientRect()
        const style = getComputedStyle(box)
        const gone = rect.width < 1 || rect.height < 1 || style.visibility === 'hidden'
        if (gone || rect.bottom + scrollY < 0 || rect.right < 0) continue
        // What is folded away has a box and cannot be touched.
        if (!box.checkVisibility() || box.closest('[inert]') || box.matches('pre')) continue
        let fixed = null
        for (let up = box; up; up = up.parentElement) {
          if (getComputedStyle(up).position === 'fixed') fixed = up
        }
        const name = (box.getAttribute('aria-label') || box.textContent || box.tagName).trim().slice(0, 40)
        seen.push({ box, rect, name, fixed })
      }
      const out = []
      for (const one of seen) {
        if (one.rect.width < least - 0.5 || one.rect.height < least - 0.5) {
          out.push(`small: "${one.name}" ${one.rect.width.toFixed(0)} × ${one.rect.height.toFixed(0)}`)
        }
        // Words that do not fit the control they stand in; what is typed into a field may be longer.
        const over = one.box.scrollWidth - one.box.clientWidth
        if (one.box.matches('a, button, summary') && over > 1) out.push(`cut: "${one.name}" by ${over} px`)
      }
      for (let i = 0; i < seen.length; ++i) {
        for (let k = i + 1; k < seen.length; ++k) {
          const a = seen[i]
          const b = seen[k]
          if (a.fixed !== b.fixed || a.box.contains(b.box) || b.box.contains(a.box)) continue
          const dx = Math.max(a.rect.left, b.rect.left) - Math.min(a.rect.right, b.rect.right)
          const dy = Math.max(a.rect.top, b.rect.top) - Math.min(a.rect.bottom, b.rect.bottom)
          if (Math.max(dx, dy) < gap - 0.5) {
            out.push(`near: "${a.name}" and "${b.name}" ${Math.max(dx, dy).toFixed(1)} px`)
          }
        }
      }
      const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth
      if (wide > 0) out.push(`the page is ${wide} px wider than the screen`)
      return out
    },
    [kLeastPx, kGapPx]
  )
}

/** Drags the border behind the lengths of a strand of 20 cm, in cm from the scalp; gives how long each
 *  move took to be painted [ms]. */
export async function dragBorder(page, from, to, step) {
  const box = await page.getByRole('img', { name: /The strand/ }).boundingBox()
  const kSpanCm = 20 * 1.08
  const x = (cm) => box.x + 20 + (cm / kSpanCm) * (box.width - 40)
  await page.mouse.move(x(from), box.y + 60)
  await page.mouse.down()
  await page.evaluate(() => {
    window.paints = []
    addEventListener('pointermove', (event) => {
      const at = event.timeStamp
      requestAnimationFrame(() => setTimeout(() => window.paints.push(performance.now() - at)))
    }, { capture: true })
  })
  for (let cm = from; cm >= to; cm -= step) await page.mouse.move(x(cm), box.y + 60)
  await page.mouse.up()
  return page.evaluate(() => window.paints)
}
