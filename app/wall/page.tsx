import { openPage } from "../access";
import { Link } from "../fittings/link";
import { PageFrame } from "../fittings/page-frame";
import { WallKeyForm } from "./wall-key-form";

export const metadata = { title: "Wall" };

/** Where a screen that hangs on a wall is given its key, once. */
export default async function WallKeyPage() {
  await openPage("/wall");
  return (
    <PageFrame
      title="A screen on the wall"
      purpose="With a key this screen shows the shift board by itself for as long as the key stands. It can change nothing. An admin makes the key on People, Keys; nobody stays signed in here."
    >
      <WallKeyForm />
      <p>
        To see how it looks, <Link href="/?wall">open the wall board</Link> as the person who is signed in.
      </p>
    </PageFrame>
  );
}
