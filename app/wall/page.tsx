import { pieces } from "../../lib/words/fill";
import { openPage } from "../access";
import { Link } from "../fittings/link";
import { PageFrame } from "../fittings/page-frame";
import { words } from "../language/language";
import { WallKeyForm } from "./wall-key-form";

export async function generateMetadata() {
  return { title: (await words()).signIn.wall.tab };
}

/** Where a screen that hangs on a wall is given its key, once. */
export default async function WallKeyPage() {
  await openPage("/wall");
  const { wall } = (await words()).signIn;
  return (
    <PageFrame title={wall.title} purpose={wall.purpose}>
      <WallKeyForm words={wall.form} />
      <p>
        {pieces(wall.look).map((piece) =>
          piece === "link" ? (
            <Link key={piece} href="/?wall">
              {wall.open}
            </Link>
          ) : (
            piece
          ),
        )}
      </p>
    </PageFrame>
  );
}
