interface Beginning {
  readonly title: string
  readonly grades: readonly (readonly [code: string, name: string, officer?: 'officer'])[]
  readonly arms: readonly (readonly [code: string, name: string])[]
}

/** Lists to begin with, from memory and common practice; a unit checks them against its own regulations. */
export const BEGINNINGS: readonly Beginning[] = [
  {
    title: 'Army ceremonial unit',
    grades: [
      ['PVT', 'Private'],
      ['PFC', 'Private first class'],
      ['SPC', 'Specialist'],
      ['CPL', 'Corporal'],
      ['SGT', 'Sergeant'],
      ['SSG', 'Staff sergeant'],
      ['SFC', 'Sergeant first class'],
      ['MSG', 'Master sergeant'],
      ['1SG', 'First sergeant'],
      ['SGM', 'Sergeant major'],
      ['2LT', 'Second lieutenant', 'officer'],
      ['1LT', 'First lieutenant', 'officer'],
      ['CPT', 'Captain', 'officer'],
      ['MAJ', 'Major', 'officer'],
      ['LTC', 'Lieutenant colonel', 'officer'],
      ['COL', 'Colonel', 'officer'],
    ],
    arms: [
      ['rifle', 'Rifle'],
      ['sword', 'Sword'],
      ['saber', 'Saber'],
      ['guidon', 'Guidon'],
      ['colors', 'Colors'],
    ],
  },
  {
    title: 'Fire service honor guard',
    grades: [
      ['FF', 'Firefighter'],
      ['ENG', 'Engineer'],
      ['LT', 'Lieutenant', 'officer'],
      ['CPT', 'Captain', 'officer'],
      ['BC', 'Battalion chief', 'officer'],
    ],
    arms: [],
  },
  {
    title: 'Police honor guard',
    grades: [
      ['OFC', 'Officer'],
      ['DET', 'Detective'],
      ['SGT', 'Sergeant'],
      ['LT', 'Lieutenant', 'officer'],
      ['CPT', 'Captain', 'officer'],
    ],
    arms: [
      ['rifle', 'Rifle'],
      ['colors', 'Colors'],
    ],
  },
]
