/** What a company is called; soldiers who were in none stand together. */
export const companyName = ({ name }: { name: string | null }): string => name ?? 'In no company'
