import type { Endpoint } from '../endpoint.ts'
import type { NoticePage, NoticeQuery, ReadBody, UnreadNotices } from './notices.ts'
import type { PushSettingBody, PushState, PushSubscriptionBody } from './push.ts'

export const listNotices = 'GET /api/notices' as Endpoint<{ query: typeof NoticeQuery; answer: typeof NoticePage }>

export const countUnreadNotices = 'GET /api/notices/unread' as Endpoint<{ answer: typeof UnreadNotices }>

export const readNotices = 'POST /api/notices/read' as Endpoint<{ body: typeof ReadBody; answer: typeof UnreadNotices }>

export const getPush = 'GET /api/push' as Endpoint<{ answer: typeof PushState }>

export const changePush = 'PUT /api/push' as Endpoint<{ body: typeof PushSettingBody; answer: typeof PushState }>

export const subscribeToPush = 'PUT /api/account/push' as Endpoint<{
  body: typeof PushSubscriptionBody
  answer: typeof PushState
}>

export const unsubscribeFromPush = 'DELETE /api/account/push' as Endpoint
