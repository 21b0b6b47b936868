// @ts-check
import { createServer } from "node:http";
import Database from "better-sqlite3";
import { z } from "zod";

/*
 * What taking a posted piece costs at the least: a bare server that reads the body, checks it, and stores it in one
 * transaction with synchronous=FULL, in order of arrival. It knows no features, judges nothing, keeps no key and finds
 * no duplicate.
 *
 *   node posts.mjs FILE.db     prints its port
 */

const db = new Database(process.argv[2] ?? ":memory:");
db.pragma("journal_mode = WAL");
db.pragma("synchronous = FULL");
db.pragma("cache_size = -65536");
db.exec(`CREATE TABLE piece(id INTEGER PRIMARY KEY, name TEXT NOT NULL, taken_at INTEGER NOT NULL, part TEXT, lot TEXT,
    fixture TEXT, gauge TEXT, operator TEXT);
  CREATE TABLE measurement(id INTEGER PRIMARY KEY, piece_id INTEGER NOT NULL, feature TEXT NOT NULL, value REAL NOT NULL,
    unit TEXT, tool TEXT);`);
const addPiece = db.prepare("INSERT INTO piece VALUES (NULL, ?, ?, ?, ?, ?, ?, ?)");
const addMeasurement = db.prepare("INSERT INTO measurement VALUES (NULL, ?, ?, ?, ?, ?)");

const text = z.string().min(1).max(200);
const PIECE = z.strictObject({
  piece: text,
  taken_at: z.iso.datetime(),
  part: text,
  lot: text,
  fixture: text,
  gauge: text,
  operator: text,
  measurements: z
    .array(z.strictObject({ feature: text, value: z.number(), unit: text, tool: text }))
    .min(1)
    .max(5000),
});

const store = db.transaction((/** @type {z.infer<typeof PIECE>} */ piece) => {
  const { lastInsertRowid } = addPiece.run(
    piece.piece,
    Date.parse(piece.taken_at),
    piece.part,
    piece.lot,
    piece.fixture,
    piece.gauge,
    piece.operator,
  );
  for (const { feature, value, unit, tool } of piece.measurements)
    addMeasurement.run(lastInsertRowid, feature, value, unit, tool);
});

const server = createServer((request, response) => {
  /** @type {Buffer[]} */
  const chunks = [];
  request.on("data", (chunk) => chunks.push(chunk));
  request.on("end", () => {
    try {
      const read = PIECE.parse(JSON.parse(Buffer.concat(chunks).toString()));
      store.immediate(read);
      response.setHeader("content-type", "application/json");
      response.end(JSON.stringify({ accepted: read.measurements.length }));
    } catch (error) {
      response.statusCode = 422;
      response.end(String(error));
    }
  });
});
server.listen(0, "127.0.0.1", () => {
  const address = server.address();
  console.log(typeof address === "object" && address ? address.port : "");
});
process.on("SIGTERM", () => {
  db.close();
  process.exit(0);
});
