import { expect, it } from 'vitest'
import { ROLE_WORDS } from '../../../web/domain/accounts/roles.ts'
import { GLOSSARY } from '../../../web/features/help/glossary.ts'
import { ROLE_CARDS } from '../../../web/features/help/role-cards.ts'

it('every role has a card', () => {
  expect(ROLE_CARDS.map(({ role }) => role).sort()).toEqual(ROLE_WORDS.map(({ role }) => role).sort())
})

it('the glossary is in the order of the alphabet, each word once', () => {
  const words = GLOSSARY.map(({ word }) => word)
  expect(words).toEqual([...new Set(words)].sort((a, b) => a.localeCompare(b, 'en')))
})
