import type { Exchange, Session } from '@core/schema'

/** The car with one of its sessions in another state. */
export const withSession = (exchange: Exchange, session: Session | null): Exchange => (session === null ? exchange : {
  ...exchange,
  sessions: exchange.sessions.map((each) => (each.id === session.id && each.kind === session.kind ? session : each)),
})
