import { describe, expect, it } from 'vitest'
import { menuFor, menuRow } from '../../../web/app/menu.ts'

const row = (...roles: Parameters<typeof menuRow>[0][number][]) => menuRow(roles).map(({ text }) => text)

describe('the row at the top', () => {
  it('has what the office works through: what is held, who retests, what goes wrong', () => {
    expect(row('office')).toEqual(['Test days', 'Enter a sheet', 'Held', 'Retests', 'Findings'])
  })
  it('stays short for somebody with every role, and has only pages they may open', () => {
    const all = row('office', 'commander', 'leader', 'sponsor', 'grader', 'administrator')
    expect(all.length).toBeLessThanOrEqual(5)
    const open = menuFor(['leader']).flatMap(({ items }) => items.map(({ text }) => text))
    for (const text of row('leader')) expect(open).toContain(text)
  })
})
