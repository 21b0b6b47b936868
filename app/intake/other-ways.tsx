import type { Account } from "../../db/queries/accounts";
import { latestPosts, type PostedByKey } from "../../db/queries/intakes";
import { counted, whole } from "../../lib/format/numbers";
import { mayOpen } from "../access";
import { database } from "../database";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Section } from "../fittings/page-frame";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
import styles from "./intake.module.css";
import { WatchedFolder } from "./watched/watched-folder";

/** Enough to see which machines post and how that goes; the history of posts is not for reading line by line. */
const POSTS_READ = 1000;

/** How measurements come in without a file being dropped: the watched folder and machines that post. */
export async function OtherWays({ person, zone }: { person: Account; zone: string }) {
  return (
    <>
      <Section title="Watched folder" id="folder">
        <WatchedFolder zone={zone} />
      </Section>
      <Section title="Machines that post" id="posts">
        <Posts
          posts={await latestPosts(await database(), { limit: POSTS_READ })}
          person={person}
          zone={zone}
        />
      </Section>
    </>
  );
}

function Posts({ posts, person, zone }: { posts: readonly PostedByKey[]; person: Account; zone: string }) {
  const requests = posts.reduce((sum, each) => sum + each.requests, 0);
  return (
    <>
      <p className={styles.wayWords}>
        A machine with a key posts pieces to <code>/api/v1/measurements</code>; they are judged before it gets
        its answer.{" "}
        {mayOpen(person, "/people/keys") ? (
          <Link href="/people/keys">Make and end keys</Link>
        ) : (
          "An admin makes and ends the keys."
        )}
      </p>
      <Table
        caption={`The latest ${counted(requests, "request")}, by key`}
        rows={posts}
        rowKey={({ name }) => name}
        empty={<Note kind="empty">No machine has posted yet.</Note>}
        columns={[
          { key: "name", head: "Who", cell: ({ name }) => name },
          { key: "requests", head: "Requests", figures: true, cell: ({ requests: n }) => whole(n) },
          { key: "accepted", head: "Stored", figures: true, cell: ({ accepted }) => whole(accepted) },
          {
            key: "refused",
            head: "Refused",
            figures: true,
            cell: ({ refused, latestRefusedId }) =>
              latestRefusedId === null ? (
                <span className={styles.zero}>0</span>
              ) : (
                <Link href={`/intake/${latestRefusedId}`}>{whole(refused)}</Link>
              ),
          },
          { key: "alarms", head: "Alarms", figures: true, cell: ({ alarms }) => whole(alarms) },
          {
            key: "latest",
            head: "Latest",
            tight: true,
            cell: ({ latestAt, latestId }) => (
              <Link href={`/intake/${latestId}`}>
                <When at={latestAt} zone={zone} as="short" />
              </Link>
            ),
          },
        ]}
      />
    </>
  );
}
