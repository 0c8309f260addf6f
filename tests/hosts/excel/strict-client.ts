/**
 * The rules of Office.js about when something may be read: nothing before it was loaded and synced,
 * nothing that was not asked for, no member that does not exist. Each request can be made to fail;
 * as in Excel, requests before it stay done and those after it are dropped.
 */
export class OfficeError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

interface Request {
  readonly label: string;
  readonly run: () => void;
}

/** Makes requests fail: the n-th of all (1 = first), once or from there on. */
export interface Failure {
  readonly at: number;
  /** A second request that fails. */
  readonly again?: number;
  readonly lasting?: boolean;
  readonly code?: string;
}

export class StrictContext {
  #queue: Request[] = [];
  #arrived: (() => void)[] = [];
  /** Labels of all requests that were carried out or failed. */
  readonly log: string[] = [];
  syncs = 0;

  constructor(readonly failure?: Failure) {}

  enqueue(label: string, run: () => void): void {
    this.#queue.push({ label, run });
  }

  /** What becomes readable when the sync that brings it succeeds. */
  arrive(deliver: () => void): void {
    this.#arrived.push(deliver);
  }

  async sync(): Promise<void> {
    this.syncs++;
    const queue = this.#queue;
    this.#queue = [];
    this.#arrived = [];
    await Promise.resolve();
    for (const { label, run } of queue) {
      this.log.push(label);
      const { failure } = this;
      const count = this.log.length;
      if (failure && (count === failure.at || count === failure.again || (failure.lasting && count > failure.at))) {
        throw new OfficeError(failure.code ?? "GeneralException", `failed on purpose at ${label}`);
      }
      run();
    }
    for (const deliver of this.#arrived) deliver();
  }
}

/** What one kind of object offers. All functions run when the queue reaches them. */
export interface Spec {
  readonly label: string;
  /** Throws where the object is not there. */
  readonly exists?: () => void;
  /** Says whether a `…OrNullObject` found nothing. */
  readonly isNull?: () => boolean;
  readonly read?: Readonly<Record<string, () => unknown>>;
  readonly write?: Readonly<Record<string, (value: never) => void>>;
  /** Methods: called at once, and expected to enqueue. */
  readonly call?: Readonly<Record<string, (...args: never[]) => unknown>>;
  /** Objects below this one. */
  readonly part?: Readonly<Record<string, () => object>>;
  readonly items?: () => Spec[];
}

/** An object on this side of the wire, as strict as its spec. */
export function client(context: StrictContext, spec: Spec): never {
  const loaded = new Map<string, unknown>();
  const parts = new Map<string, object>();
  let isNull: boolean | undefined;
  if (spec.exists) context.enqueue(`find ${spec.label}`, spec.exists);
  if (spec.isNull) {
    const { isNull: ask } = spec;
    context.enqueue(`look for ${spec.label}`, () => {
      const answer = ask();
      context.arrive(() => (isNull = answer));
    });
  }

  const load = (names: string) => {
    for (const name of names.split(",").map((one) => one.trim())) {
      const [first, ...rest] = name.split("/");
      const known = rest.length > 0 ? first === "items" && spec.items : spec.read && Object.hasOwn(spec.read, name);
      if (!known) throw new Error(`${spec.label} has no ${name} to load`);
    }
    context.enqueue(`load ${names} of ${spec.label}`, () => {
      if (spec.isNull?.()) return;
      for (const name of names.split(",").map((one) => one.trim())) {
        if (name.startsWith("items/")) continue;
        const value = structuredClone(spec.read![name]!());
        context.arrive(() => loaded.set(name, value));
      }
      const wanted = names.split(",").flatMap((one) => (one.trim().startsWith("items/") ? [one.trim().slice(6)] : []));
      if (wanted.length === 0) return;
      const items = spec.items!().map(
        (item) => [item, wanted.map((name) => [name, item.read![name]!()] as const)] as const,
      );
      context.arrive(() =>
        loaded.set(
          "items",
          items.map(([item, values]) => preloaded(context, item, values)),
        ),
      );
    });
  };

  return new Proxy(
    {},
    {
      get(_, name) {
        if (typeof name === "symbol" || name === "then") return undefined;
        if (name === "load") return load;
        if (name === "context") return context;
        if (name === "isNullObject") {
          if (!spec.isNull) throw new Error(`${spec.label} is not one that may be missing`);
          if (isNull === undefined)
            throw new OfficeError("PropertyNotLoaded", `isNullObject of ${spec.label} is read before the sync`);
          return isNull;
        }
        if (spec.part && Object.hasOwn(spec.part, name)) {
          if (!parts.has(name)) parts.set(name, spec.part[name]!());
          return parts.get(name);
        }
        if (spec.call && Object.hasOwn(spec.call, name)) return spec.call[name];
        if ((spec.read && Object.hasOwn(spec.read, name)) || (name === "items" && spec.items)) {
          if (!loaded.has(name))
            throw new OfficeError(
              "PropertyNotLoaded",
              `${name} of ${spec.label} is read before it was loaded and synced`,
            );
          return loaded.get(name);
        }
        throw new Error(`${spec.label} has no ${name}`);
      },
      set(_, name, value) {
        const write = spec.write?.[name as string];
        if (!write || !Object.hasOwn(spec.write!, name))
          throw new Error(`${spec.label} does not let ${String(name)} be set`);
        const copy = structuredClone(value) as never;
        context.enqueue(`set ${String(name)} of ${spec.label}`, () => {
          if (spec.isNull?.()) throw new OfficeError("InvalidOperation", `${spec.label} is not there`);
          write(copy);
        });
        return true;
      },
    },
  ) as never;
}

/** An item of a collection that came with some of its properties. */
function preloaded(context: StrictContext, spec: Spec, values: readonly (readonly [string, unknown])[]): unknown {
  const object = client(context, found(spec)) as object;
  return new Proxy(object, {
    get: (target, name) => values.find(([known]) => known === name)?.[1] ?? Reflect.get(target, name),
  });
}

/** A spec of an object that is known to be there, or that may be missing. */
export function found({ exists: _exists, ...rest }: Spec): Spec {
  return rest;
}
