// A keeper in memory, with the same calls as static/logbook/offline/database.js: what it holds outlives a page.

export class Memory {
  rows = new Map(); // person -> rows
  failing = false;

  keeper(person) {
    const all = () => this.rows.get(person) ?? [];
    const set = (rows) => {
      if (this.failing) throw new Error("quota");
      this.rows.set(person, structuredClone(rows));
    };
    return {
      load: async () => structuredClone(all()),
      add: async (rows) => set([...all(), ...rows]),
      change: async (id, values) => set(all().map((row) => (row.op.id === id ? { ...row, ...values } : row))),
      remove: async (ids) => set(all().filter(({ op }) => !ids.includes(op.id))),
    };
  }
}
