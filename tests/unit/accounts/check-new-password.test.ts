import { describe, expect, it } from 'vitest'
import { checkNewPassword } from '../../../server/accounts/services/check-new-password.ts'
import { DEMO_PASSWORD } from '../../../server/accounts/services/demo-accounts.ts'

const names = ['mirela.ashdown', 'Ashdown', 'Mirela', '2nd Platoon']

describe('checkNewPassword', () => {
  it.each([
    ['common, twice', 'passwordpassword'],
    ['common with letters replaced', 'P@ssw0rdP@ssw0rd'],
    ['common with the usual at its end', 'Password1234567!'],
    ['common, of fifteen characters', '1qaz2wsx3edc4rfv'],
    ['one character', 'aaaaaaaaaaaaaaa'],
    ['one word again and again', 'guard guard guard guard'],
    ['a row of letters', 'abcdefghijklmnop'],
    ['a row of digits', '123456789012345'],
    ['a row of keys', 'qwertyuiopasdfgh'],
    ['a date twice', '2026-11-25 2026-11-25'],
    ['a season and a year, twice', 'Winter2026Winter2026'],
    ['the service with a year', 'reviewstand2026!'],
    ['the service in capitals, twice', 'ReviewstandReviewstand'],
    ['the names of the account', 'ashdown.mirela.1'],
    ['the names of the account with a grade', 'SGTAshdownMirela'],
    ['the password of the demo', DEMO_PASSWORD],
    ['the password of the demo in capitals', DEMO_PASSWORD.toUpperCase()],
    ['a long row', 'ab'.repeat(500)],
  ])('refuses what is %s', async (_why, password) => {
    await expect(checkNewPassword(password, '/next', names)).rejects.toMatchObject({
      rule: 'guessable-password',
      items: [{ pointer: '/next' }],
    })
  })

  it.each([
    'correct horse battery staple',
    'the drums beat at noon',
    'walnut carriage under rain',
    'jbx8 kwq2 vfp9 z',
    'сапоги блестят на солнце',
    '磨かれた靴が朝の光に映える、今日も', // Seventeen characters.
    '🥁🎺🎖️🧵👢🪡🧲🌧️🍞🦉🛶🪨🔭🧭🪁',
    'a password may hold the word password',
    "§$%&/()=?!x'*+#-.,;:_<>|",
  ])('demands no kind of character: %s', async (password) => {
    await expect(checkNewPassword(password, '/next', names)).resolves.toBeUndefined()
  })
})
