/** A code for a title that none of these has: "Half step" is "half-step". */
export function codeFor(title: string, used: readonly string[]): string {
  const base =
    title
      .normalize('NFKD')
      .replace(/\p{Mark}/gu, '')
      .replace(/[^A-Za-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .toLowerCase()
      .slice(0, 56)
      .replace(/-+$/, '') || 'new'
  let code = base
  for (let count = 2; used.includes(code); count++) code = `${base}-${count}`
  return code
}

/** The code, and a title for it, of something new in a list. */
export const named = (title: string, used: readonly string[]) => ({ code: codeFor(title, used), title })
