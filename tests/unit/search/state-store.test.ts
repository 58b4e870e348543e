import { describe, expect, it } from "vitest";
import { StateStore, taskHashes } from "../../../src/solve/search/state-store.js";

describe("remembered sets of tasks", () => {
  it("are kept apart when their hashes are equal", () => {
    const store = new StateStore(2, 100);
    expect(store.remember(Int32Array.of(1, 0), 7, 1, -1)).toBe(0);
    expect(store.remember(Int32Array.of(1, 1), 7, 1, -1)).toBe(1);
    expect(store.remember(Int32Array.of(1, 0), 7, 1, -1)).toBe(-1);
  });

  it("come back only with fewer stations, and then with the state before", () => {
    const store = new StateStore(1, 100);
    store.remember(Int32Array.of(1), 1, 1, -1);
    const state = store.remember(Int32Array.of(3), 2, 3, 0);
    expect(store.remember(Int32Array.of(3), 2, 3, 0)).toBe(-1);
    expect(store.remember(Int32Array.of(3), 2, 2, -1)).toBe(state);
    expect([store.stations[state], store.parents[state], store.count]).toEqual([2, -1, 2]);
  });

  it("are found again after the store has grown many times", () => {
    const store = new StateStore(1, 100_000);
    const hash = (set: number) => Math.imul(set, 0x9e3779b1);
    for (let set = 0; set < 20_000; set++) store.remember(Int32Array.of(set), hash(set), 1, -1);
    const again = Array.from({ length: 20_000 }, (_, set) =>
      store.remember(Int32Array.of(set), hash(set), 1, -1),
    );
    expect(again.every((state) => state === -1)).toBe(true);
    expect([store.count, store.full]).toEqual([20_000, false]);
  });

  it("fill the store at the number given", () => {
    const store = new StateStore(1, 2);
    store.remember(Int32Array.of(1), 1, 1, -1);
    expect(store.full).toBe(false);
    store.remember(Int32Array.of(2), 2, 1, -1);
    expect(store.full).toBe(true);
  });

  it("get hashes that are the same every time and differ between tasks", () => {
    expect(taskHashes(1000)).toEqual(taskHashes(1000));
    expect(new Set(taskHashes(1000)).size).toBe(1000);
  });
});
