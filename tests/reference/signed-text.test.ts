import { expect, it } from 'vitest'
import { kidIn, kidOf, signText, verifyText } from '../../server/soldiers/services/extracts/signature.ts'
import { PUBLISHED_KEY } from '../support/published-key.ts'

/** RFC 8037, "CFRG Elliptic Curve Diffie-Hellman (ECDH) and Signatures in JOSE", appendix A.3 and A.4. */
const THUMBPRINT = 'kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k'
const TEXT = 'Example of Ed25519 signing'
const SIGNED =
  'eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc.' +
  'hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg'

it('a text is signed as the published example', async () => {
  expect(await signText(TEXT, PUBLISHED_KEY, {})).toBe(SIGNED)
})

it('the published signature is verified, and nothing that differs from it', async () => {
  expect(await verifyText(SIGNED, PUBLISHED_KEY.x)).toBe(TEXT)
  for (const at of [0, SIGNED.indexOf('.') + 3, SIGNED.length - 20]) {
    const letter = SIGNED[at] === 'A' ? 'B' : 'A'
    expect(
      await verifyText(SIGNED.slice(0, at) + letter + SIGNED.slice(at + 1), PUBLISHED_KEY.x),
      `at ${at}`,
    ).toBeNull()
  }
})

it('a key has the published thumbprint, which stands in what it signs', async () => {
  const kid = await kidOf(PUBLISHED_KEY)
  expect(kid).toBe(THUMBPRINT)
  expect(kidIn(await signText(TEXT, PUBLISHED_KEY, { kid }))).toBe(THUMBPRINT)
  expect(kidIn(SIGNED)).toBeNull()
})
