import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'

const css = fs.readFileSync(path.join(import.meta.dirname, '../../../web/ui/tokens.css'), 'utf8')

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
const luminance = (colour: string): number => {
  const [r, g, b] = [1, 3, 5]
    .map((start) => Number.parseInt(colour.slice(start, start + 2), 16) / 255)
    .map((channel) => (channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4)) as [
    number,
    number,
    number,
  ]
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}
const contrast = (a: string, b: string): number => {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number]
  return (light + 0.05) / (dark + 0.05)
}

const themeOf = (name: 'light' | 'dark' | 'sun'): Map<string, string> => {
  if (name === 'sun') {
    const block = /\[data-theme="sun"\] \{([^}]*)\}/.exec(css)?.[1] ?? ''
    return new Map([...block.matchAll(/--([\w-]+): (#\w{6})/g)].map((found) => [found[1]!, found[2]!]))
  }
  const pairs = [...css.matchAll(/--([\w-]+): light-dark\((#\w{6}), (#\w{6})\)/g)]
  return new Map(pairs.map((found) => [found[1]!, found[name === 'light' ? 2 : 3]!]))
}

const TEXT = [
  'ink',
  'ink-2',
  'ink-3',
  'certified',
  'part-way',
  'retest-due',
  'lapsed',
  'suspended',
  'no-test',
  'open',
  'accent',
]

describe.each([
  // WCAG 2.2, 1.4.3 asks 4.5 of text; the sunlight theme holds itself to the 7 of 1.4.6.
  ['light', 4.5],
  ['dark', 4.5],
  ['sun', 7],
] as const)('the %s theme', (name, least) => {
  const theme = themeOf(name)
  it.each(TEXT)('%s can be read on paper and on sheets', (token) => {
    for (const ground of ['paper', 'sheet'])
      expect(contrast(theme.get(token)!, theme.get(ground)!)).toBeGreaterThanOrEqual(least)
  })
  it('the edges of fields can be seen (1.4.11: 3)', () => {
    expect(contrast(theme.get('edge')!, theme.get('sheet')!)).toBeGreaterThanOrEqual(3)
    expect(contrast(theme.get('edge')!, theme.get('paper')!)).toBeGreaterThanOrEqual(3)
  })
})

it('the contrast of black on white is 21', () => expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10))
