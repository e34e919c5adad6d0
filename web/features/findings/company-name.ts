import type { LevelWords } from '../../domain/soldiers/levels.ts'

/** What a unit of the compared level is called; soldiers who were in none stand together. */
export const companyName = ({ name }: { name: string | null }, { one }: LevelWords): string => name ?? `In no ${one}`
