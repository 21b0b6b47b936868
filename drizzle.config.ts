import { defineConfig } from "drizzle-kit";

/** Read by `npm run migration`, which writes the next migration from the difference between schema and folder. */
export default defineConfig({
  dialect: "sqlite",
  schema: "./db/schema*.ts",
  out: "./db/migrations",
});
