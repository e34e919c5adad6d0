import { FIRST_LEVELS, type Level } from '../../server/domain/people/levels.ts'

/** The battalion calls its top by what it is; its companies and platoons are called as every unit begins. */
export const demoLevels: readonly Level[] = FIRST_LEVELS.map((level) =>
  level.code === 'unit' ? { ...level, one: 'battalion', many: 'battalions' } : level,
)
