import type { Command } from "./command";
export const serve: Command = { help: "", run: async () => 0 };
