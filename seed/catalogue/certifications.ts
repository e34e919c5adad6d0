import type { CertificationBody } from '../../server/contract/standards/certifications.ts'

const TERMS = {
  sequence: 'any',
  windowDays: 90,
  validityMonths: 12,
  waitDays: 7,
  dueDays: 30,
  reviewAfter: 3,
  approval: 'none',
  extensionDays: 0,
  effectiveFrom: '2023-01-01',
} as const

const BLADE_STANDARDS = ['sword-saber-standing', 'sword-saber-marching']

/**
 * The three certifications of the demo unit, as `POST /api/certifications` takes them. Required of: the saber, of
 * officers who form up with troops (the battalion commander receives the honors); the sword, of NCOs from sergeant up;
 * the rifle, of those who stand in the ranks. A corporal carries a sword too and may earn it ahead of promotion.
 */
export const certifications: readonly CertificationBody[] = [
  {
    ...TERMS,
    code: 'saber',
    title: 'Saber',
    standards: [...BLADE_STANDARDS],
    arms: ['saber'],
    requiredOf: { grades: ['2LT', '1LT', 'CPT', 'MAJ'], units: null },
  },
  {
    ...TERMS,
    code: 'sword',
    title: 'Sword',
    standards: [...BLADE_STANDARDS],
    arms: ['sword'],
    requiredOf: { grades: ['SGT', 'SSG', 'SFC', 'MSG', '1SG', 'SGM'], units: null },
  },
  {
    ...TERMS,
    code: 'rifle',
    title: 'Rifle',
    standards: ['rifle-standing'],
    arms: ['rifle'],
    requiredOf: { grades: ['PVT', 'PFC', 'SPC', 'CPL'], units: null },
  },
]
