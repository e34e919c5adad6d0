import { ROLE_WORDS, type Role } from '../domain/accounts/roles.ts'
import { listed } from '../words/format-number.ts'

/** Who is meant by a role: "the training office", "leaders". */
const whom = (role: Role): string => {
  const title = ROLE_WORDS.find((word) => word.role === role)?.title.toLowerCase() ?? role
  return role === 'office' ? `the ${title}` : `${title}s`
}

/** "Held sheets is a page for the training office." */
export const formatWhosePage = (title: string, roles: readonly Role[]): string => {
  const inOrder = ROLE_WORDS.map(({ role }) => role).filter((role) => roles.includes(role))
  return `The page “${title}” is for ${listed(inOrder.map(whom))}.`
}

/** Of a desk by the role in its address; a role there is not has no desk. */
export const formatWhoseDesk = (role: string): string => {
  const known = ROLE_WORDS.find((word) => word.role === role)
  return known ? `This is the desk of ${whom(known.role)}.` : 'There is no such desk.'
}
