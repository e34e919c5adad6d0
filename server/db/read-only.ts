/** Whoever answers takes no writes: a standby, or a primary that has been set aside. */
export class DatabaseReadOnly extends Error {
  constructor() {
    super('The database takes no writes')
    this.name = 'DatabaseReadOnly'
  }
}
