import { openBrowser, openPage } from './tests/support/browser.ts'
const base = process.argv[2]!, out = '/tmp/shots'
const who = process.argv[3] ?? 'office'
const names = (process.argv[4] ?? '').split(',').filter(Boolean)
const b = await openBrowser()
for (const screen of ['desktop', 'phone'] as const) {
  const p = await openPage(b, base + '/sign-in', screen)
  p.on('console', (m) => m.type() === 'error' && console.log('console', m.text()))
  p.on('pageerror', (e) => console.log('pageerror', e.message))
  await p.waitForTimeout(1500)
  if (names.includes('sign-in')) await p.screenshot({ path: `${out}/${who}-sign-in-${screen}.png` })
  const r = await p.evaluate(async (n) => (await fetch('/api/session', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ name: n, password: 'calloway-demo-only' }) })).status, who)
  console.log('signin', r)
  const cer = await p.evaluate(async () => (await (await fetch('/api/ceremonies')).json()).items?.[0]?.id)
  const ret = await p.evaluate(async () => (await (await fetch('/api/retests')).json()).items?.[0]?.soldierId)
  const held = await p.evaluate(async () => (await (await fetch('/api/sheets?state=held')).json()).items?.[0]?.id)
  const all: Record<string, string> = { overview: '/', stand: '/stand', ceremony: `/stand?ceremony=${cer}`, candidates: '/candidates', candidate: `/candidates/${ret}`, enter: '/enter', held: '/held', retests: '/retests', measures: '/findings/measures', sponsors: '/findings/sponsors', standards: '/standards', sheet: `/sheets/${held}`, contested: '/contested', record: '/record' }
  for (const n of names) { if (!all[n]) continue; await p.goto(base + all[n]); await p.waitForTimeout(2500); await p.screenshot({ path: `${out}/${who}-${n}-${screen}.png`, fullPage: true }) }
  await p.context().close()
}
await b.close()
