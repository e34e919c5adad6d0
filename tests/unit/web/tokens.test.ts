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

describe('the colours of states', () => {
  /**
   * Dichromacy as simulated by Viénot, Brettel and Mollon, "Digital video colourmaps for checking the legibility of displays
   * by dichromats", Color Research and Application 24 (1999), in linear RGB. The matrices are from memory: their rows add
   * up to one, so that greys stay what they are, which is checked below.
   */
  const SEEN = {
    protan: [
      [0.11238, 0.88762, 0],
      [0.11238, 0.88762, 0],
      [0.00401, -0.00401, 1],
    ],
    deutan: [
      [0.29275, 0.70725, 0],
      [0.29275, 0.70725, 0],
      [-0.02234, 0.02234, 1],
    ],
  } as const
  const linear = (colour: string): number[] =>
    [1, 3, 5]
      .map((start) => Number.parseInt(colour.slice(start, start + 2), 16) / 255)
      .map((channel) => (channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4))
  const seenBy = (kind: keyof typeof SEEN, colour: string): number[] =>
    SEEN[kind].map((row) => row.reduce<number>((sum, share, at) => sum + share * linear(colour)[at]!, 0))
  /** CIELAB from linear sRGB, white D65 (CIE 15). */
  const lab = ([r, g, b]: number[]): [number, number, number] => {
    const f = (t: number) => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29)
    const x = f((0.4124 * r! + 0.3576 * g! + 0.1805 * b!) / 0.9505)
    const y = f(0.2126 * r! + 0.7152 * g! + 0.0722 * b!)
    const z = f((0.0193 * r! + 0.1192 * g! + 0.9505 * b!) / 1.089)
    return [116 * y - 16, 500 * (x - y), 200 * (y - z)]
  }
  /** CIE76; about 2.3 is just noticeable. */
  const apart = (kind: keyof typeof SEEN, a: string, b: string): number =>
    Math.hypot(...lab(seenBy(kind, a)).map((value, at) => value - lab(seenBy(kind, b))[at]!))

  it.each(['protan', 'deutan'] as const)('grey stays grey to a %s', (kind) => {
    for (const [at, value] of seenBy(kind, '#808080').entries()) expect(value).toBeCloseTo(linear('#808080')[at]!, 3)
  })

  const STATES = ['certified', 'part-way', 'retest-due', 'lapsed', 'open'] as const
  const pairs = STATES.flatMap((a, at) => STATES.slice(at + 1).map((b) => [a, b] as const))
  it.each(['light', 'dark'] as const)('differ to the colour-blind, beside word and shape, in the %s theme', (name) => {
    const theme = themeOf(name)
    for (const kind of ['protan', 'deutan'] as const) {
      for (const [a, b] of pairs)
        expect(apart(kind, theme.get(a)!, theme.get(b)!), `${kind}: ${a}, ${b}`).toBeGreaterThan(2.3)
    }
  })
})

describe('a theme', () => {
  const styles = path.join(import.meta.dirname, '../../../web')
  it('is another set of colours and washes, and changes nothing else of a page', () => {
    const speaking = fs
      .readdirSync(styles, { recursive: true, encoding: 'utf8' })
      .filter(
        (file) => file.endsWith('.css') && fs.readFileSync(path.join(styles, file), 'utf8').includes('data-theme'),
      )
    expect(speaking).toEqual([path.join('ui', 'tokens.css')])
    const blocks = [...css.matchAll(/^\[data-theme="\w+"\] \{([^}]*)\}/gm)].map(([, block]) => block!)
    expect(blocks).toHaveLength(3)
    const set = blocks.flatMap((block) => block.split(';').flatMap((line) => line.trim() || []))
    expect(set.filter((line) => !/^(color-scheme: \w+|--[\w-]+: #\w{6}|--wash: \d+%)$/.test(line))).toEqual([])
  })
})
