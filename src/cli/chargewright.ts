import { main } from "./main";

/** The program itself: the command line on this process's own arguments and streams. */
const io = {
  out: (line: string) => void process.stdout.write(`${line}\n`),
  complain: (line: string) => void process.stderr.write(`${line}\n`),
};

// A reader that stops early (`| head`) is no fault of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});

main(process.argv.slice(2), io).then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    io.complain(
      `chargewright: this should not have happened, please report it.\n${error instanceof Error ? error.stack : String(error)}`,
    );
    process.exitCode = 1;
  },
);
