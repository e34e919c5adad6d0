/** How measures are with the demo unit. Invented: nothing here was measured anywhere. */
export interface MeasureTrait {
  /** Log-odds that somebody of average talent, well coached, does one trial right. */
  readonly ease: number
  /** How often each fault is seen next to the others, which have 1. */
  readonly faults: Readonly<Record<string, number>>
  /** How much easier it got from the middle of the record on, when the unit began to drill it apart. */
  readonly eased?: number
}

const TRAITS: Readonly<Record<string, Readonly<Record<string, MeasureTrait>>>> = {
  'sword-saber-standing': {
    draw: { ease: 1.9, faults: { 'not-seated': 4, 'draw-counts': 2, 'elbow-bent': 2 } },
    return: { ease: 1.5, faults: { 'sheathing-movement': 6, 'blade-not-upright': 2 } },
    'present-from-carry': { ease: 1.2, faults: { 'present-off-centre': 4, 'lower-counts': 4 } },
    'present-from-order': { ease: 0.35, faults: { 'raise-counts': 6, 'present-off-centre': 2 }, eased: 0.6 },
    'eyes-right': { ease: 0.5, faults: { 'early-blade': 7, 'lower-counts': 2 } },
    'parade-rest': { ease: 2.2, faults: { 'left-arm-off': 2 } },
    attention: { ease: 2.2, faults: { 'left-arm-off': 2 } },
    'ceremonial-at-ease': { ease: 1.5, faults: { rushed: 5 } },
    'guard-attention': { ease: 1.6, faults: { 'early-late': 5 } },
    'right-face': { ease: 2.3, faults: { 'no-carry': 2 } },
    'left-face': { ease: 2.1, faults: { 'no-carry': 2 } },
    'about-face': { ease: 1.4, faults: { 'face-counts': 4 } },
    'carry-order': { ease: 0.5, faults: { 'not-seated': 6 } },
  },
  'sword-saber-marching': {
    'forward-halt': { ease: 2, faults: { 'halt-counts': 4, 'weight-shown': 2 } },
    'mark-time': { ease: 1.9, faults: { drifted: 4 } },
    'half-step': { ease: 1.3, faults: { 'blade-bounced': 3 } },
    'change-step': { ease: 0.8, faults: { 'change-foot': 4, hopped: 3 } },
    'column-right': { ease: 1.6, faults: { 'turn-not-square': 3, 'blade-swung': 2 } },
    'column-left': { ease: 1.4, faults: { 'turn-not-square': 4, 'blade-swung': 2 } },
    'right-flank': { ease: 1.7, faults: { 'turn-timing': 3 } },
    'left-flank': { ease: 1.5, faults: { 'turn-timing': 4, 'head-led': 2 } },
    'rear-march': { ease: 0.6, faults: { unbalanced: 6, 'off-line': 3 } },
    'eyes-right-march': { ease: 0.7, faults: { 'early-blade': 5, 'broke-step': 3 } },
    'ready-front': { ease: 1.6, faults: { 'not-seated': 3 } },
    'double-time': { ease: 1.1, faults: { 'blade-loose': 5 } },
  },
  'rifle-standing': {
    inspection: { ease: 1.3, faults: { fumbled: 6 } },
    port: { ease: 2, faults: { 'slant-off': 3 } },
    'order-from-port': { ease: 1.5, faults: { 'butt-struck': 5 } },
    present: { ease: 1.7, faults: { 'off-centre': 3 } },
    'order-from-present': { ease: 1.5, faults: { 'butt-struck': 5 } },
    'rifle-salute': { ease: 1.9, faults: { 'hand-off': 3 } },
    'right-shoulder': { ease: 1.1, faults: { 'muzzle-off-line': 3, counts: 3 } },
    'left-shoulder': { ease: 0.6, faults: { counts: 6, 'elbow-out': 3 } },
    trail: { ease: 1, faults: { 'muzzle-not-forward': 4 } },
    'parade-rest': { ease: 2.3, faults: {} },
    attention: { ease: 2.2, faults: {} },
    'right-face': { ease: 1.9, faults: { 'butt-dragged': 3 } },
    'left-face': { ease: 1.8, faults: { 'butt-dragged': 3 } },
    'about-face': { ease: 0.8, faults: { unbalanced: 5, 'butt-dragged': 3 } },
  },
}

/** The trait of a measure. Throws a RangeError for one that is not in the catalogue. */
export function measureTrait(standard: string, measure: string): MeasureTrait {
  const trait = TRAITS[standard]?.[measure]
  if (!trait) throw new RangeError(`No trait of ${measure} in ${standard}.`)
  return trait
}
