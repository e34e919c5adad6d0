import type { Created, IdParams } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { FoldBody, ProviderBody, ProviderList, ProviderTest, Trial, TrialBody } from './providers.ts'
import type {
  Leave,
  LinkBody,
  LogoutBody,
  LogoutTaken,
  OwnIdentityList,
  ProviderAddress,
  ProvidersAnswering,
  SignOnBody,
  SignOnReturn,
  UnlinkBody,
} from './sign-on.ts'

export const listAnsweringProviders = 'GET /api/sign-on/answering' as Endpoint<{ answer: typeof ProvidersAnswering }>

export const beginSignOn = 'POST /api/sign-on/start' as Endpoint<{
  body: typeof SignOnBody
  answer: typeof ProviderAddress
}>

export const returnFromProvider = 'GET /api/sign-on/return/:id' as Endpoint<{
  params: typeof IdParams
  query: typeof SignOnReturn
}>

export const leave = 'POST /api/sign-on/leave' as Endpoint<{ answer: typeof Leave }>

export const endByProvider = 'POST /api/sign-on/logout/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof LogoutBody
  answer: typeof LogoutTaken
}>

export const listOwnIdentities = 'GET /api/account/identities' as Endpoint<{ answer: typeof OwnIdentityList }>

export const beginLink = 'POST /api/account/identities' as Endpoint<{
  body: typeof LinkBody
  answer: typeof ProviderAddress
}>

export const unlinkOwnIdentity = 'POST /api/account/identities/:id/unlink' as Endpoint<{
  params: typeof IdParams
  body: typeof UnlinkBody
}>

export const listProviders = 'GET /api/sign-on-providers' as Endpoint<{ answer: typeof ProviderList }>

export const putProvider = 'PUT /api/sign-on-providers/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof ProviderBody
  answer: typeof Created
}>

export const testProvider = 'POST /api/sign-on-providers/:id/test' as Endpoint<{
  params: typeof IdParams
  answer: typeof ProviderTest
}>

export const tryRules = 'POST /api/sign-on-providers/trial' as Endpoint<{
  body: typeof TrialBody
  answer: typeof Trial
}>

export const foldPasswords = 'PUT /api/sign-on-providers/page' as Endpoint<{
  body: typeof FoldBody
  answer: typeof FoldBody
}>
