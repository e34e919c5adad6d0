import type { Created, IdParams } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type {
  AccountBody,
  AccountPage,
  AccountQuery,
  DisabledBody,
  InvitationBody,
  InvitationLink,
  OwnSessionList,
  PasswordBody,
  PasswordChanged,
  Welcome,
  WelcomeBody,
  WelcomeLookBody,
} from './accounts.ts'
import type {
  AppCodeBody,
  Confirmation,
  ConfirmationBody,
  FactorAdded,
  FactorAsked,
  FactorBody,
  FactorOverview,
  FactorResetBody,
  FactorRules,
  NewApp,
  OwnFactors,
  PasskeyBody,
  PasskeyCreation,
  PasskeyRequest,
  PasskeySignInBody,
  RecoveryCodes,
} from './factors.ts'
import type { Session, SetupBody, SignInBody } from './session.ts'
import type {
  InvitationLinks,
  InvitationsBody,
  NamesBody,
  ProposedNames,
  SoldierWithoutPage,
  WithoutQuery,
} from './several.ts'
import type { MadeToken, ScriptTokenList, TokenBody } from './tokens.ts'

export const listOwnSessions = 'GET /api/account/sessions' as Endpoint<{ answer: typeof OwnSessionList }>

export const endOwnSessions = 'DELETE /api/account/sessions' as Endpoint

export const endOwnSession = 'DELETE /api/account/sessions/:id' as Endpoint<{ params: typeof IdParams }>

export const changePassword = 'PUT /api/account/password' as Endpoint<{
  body: typeof PasswordBody
  answer: typeof PasswordChanged
}>

export const listAccounts = 'GET /api/accounts' as Endpoint<{ query: typeof AccountQuery; answer: typeof AccountPage }>

export const inviteAccount = 'POST /api/accounts' as Endpoint<{
  body: typeof InvitationBody
  answer: typeof InvitationLink
}>

export const changeAccount = 'PUT /api/accounts/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof AccountBody
  answer: typeof Created
}>

export const disableAccount = 'PUT /api/accounts/:id/disabled' as Endpoint<{
  params: typeof IdParams
  body: typeof DisabledBody
  answer: typeof Created
}>

export const sendLinkAnew = 'POST /api/accounts/:id/link' as Endpoint<{
  params: typeof IdParams
  answer: typeof InvitationLink
}>

export const signIn = 'POST /api/session' as Endpoint<{
  body: typeof SignInBody
  answer: typeof Session | typeof FactorAsked
}>

export const whoAmI = 'GET /api/session' as Endpoint<{ answer: typeof Session }>

export const signOut = 'DELETE /api/session' as Endpoint

export const makeFirstAccount = 'POST /api/setup' as Endpoint<{ body: typeof SetupBody; answer: typeof Created }>

export const listSoldiersWithoutAccount = 'GET /api/accounts/without' as Endpoint<{
  query: typeof WithoutQuery
  answer: typeof SoldierWithoutPage
}>

export const proposeAccountNames = 'POST /api/accounts/names' as Endpoint<{
  body: typeof NamesBody
  answer: typeof ProposedNames
}>

export const inviteAccounts = 'POST /api/accounts/several' as Endpoint<{
  body: typeof InvitationsBody
  answer: typeof InvitationLinks
}>

export const listOwnTokens = 'GET /api/account/tokens' as Endpoint<{ answer: typeof ScriptTokenList }>

export const makeToken = 'POST /api/account/tokens' as Endpoint<{ body: typeof TokenBody; answer: typeof MadeToken }>

export const revokeToken = 'DELETE /api/account/tokens/:id' as Endpoint<{ params: typeof IdParams }>

export const lookAtLink = 'POST /api/welcome/look' as Endpoint<{ body: typeof WelcomeLookBody; answer: typeof Welcome }>

export const acceptLink = 'POST /api/welcome' as Endpoint<{
  body: typeof WelcomeBody
  answer: typeof Session | typeof FactorAsked
}>

export const finishSignIn = 'POST /api/session/factor' as Endpoint<{ body: typeof FactorBody; answer: typeof Session }>

export const askForPasskey = 'POST /api/session/factor/passkey-request' as Endpoint<{ answer: typeof PasskeyRequest }>

export const askForPasskeyAlone = 'POST /api/session/passkey-request' as Endpoint<{ answer: typeof PasskeyRequest }>

export const signInByPasskey = 'POST /api/session/passkey' as Endpoint<{
  body: typeof PasskeySignInBody
  answer: typeof Session
}>

export const howToConfirm = 'GET /api/account/confirmation' as Endpoint<{ answer: typeof Confirmation }>

export const confirmIdentity = 'POST /api/account/confirmation' as Endpoint<{
  body: typeof ConfirmationBody
  answer: typeof Confirmation
}>

export const askToConfirmByPasskey = 'POST /api/account/confirmation/passkey-request' as Endpoint<{
  answer: typeof PasskeyRequest
}>

export const listOwnFactors = 'GET /api/account/factors' as Endpoint<{ answer: typeof OwnFactors }>

export const beginApp = 'POST /api/account/factors/app' as Endpoint<{ answer: typeof NewApp }>

export const confirmNewApp = 'PUT /api/account/factors/app' as Endpoint<{
  body: typeof AppCodeBody
  answer: typeof FactorAdded
}>

export const removeApp = 'DELETE /api/account/factors/app' as Endpoint

export const makeRecoveryCodes = 'POST /api/account/factors/recovery-codes' as Endpoint<{
  answer: typeof RecoveryCodes
}>

export const beginPasskey = 'POST /api/account/factors/passkeys/creation' as Endpoint<{
  answer: typeof PasskeyCreation
}>

export const addPasskey = 'POST /api/account/factors/passkeys' as Endpoint<{
  body: typeof PasskeyBody
  answer: typeof FactorAdded
}>

export const removePasskey = 'DELETE /api/account/factors/passkeys/:id' as Endpoint<{ params: typeof IdParams }>

export const knowOfReset = 'DELETE /api/account/factors/reset' as Endpoint

export const listFactorRules = 'GET /api/factor-rules' as Endpoint<{ answer: typeof FactorOverview }>

export const changeFactorRules = 'PUT /api/factor-rules' as Endpoint<{
  body: typeof FactorRules
  answer: typeof FactorOverview
}>

export const resetFactors = 'POST /api/accounts/:id/factors/reset' as Endpoint<{
  params: typeof IdParams
  body: typeof FactorResetBody
  answer: typeof Created
}>
