import { use } from "react";
import type { Account } from "../../db/queries/accounts";
import { latestPosts, type PostedByKey } from "../../db/queries/intakes";
import { whole } from "../../lib/format/numbers";
import { mayOpen } from "../access";
import { database } from "../database";
import { Filled } from "../fittings/filled";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Section } from "../fittings/page-frame";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./intake.module.css";
import { WatchedFolder } from "./watched/watched-folder";

/** Enough to see which machines post and how that goes; the history of posts is not for reading line by line. */
const POSTS_READ = 1000;

/** How measurements come in without a file being dropped: the watched folder and machines that post. */
export async function OtherWays({ person, zone }: { person: Account; zone: string }) {
  const { intake: said } = await words();
  return (
    <>
      <Section title={said.folder.title} id="folder">
        <WatchedFolder zone={zone} />
      </Section>
      <Section title={said.posts.title} id="posts">
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
  const { posts: said } = use(words()).intake;
  const { heads } = said;
  const requests = posts.reduce((sum, each) => sum + each.requests, 0);
  return (
    <>
      <p className={styles.wayWords}>
        <Filled text={said.words} holes={{ address: <code>/api/v1/measurements</code> }} />{" "}
        {mayOpen(person, "/people/keys") ? <Link href="/people/keys">{said.toKeys}</Link> : said.admin}
      </p>
      <Table
        caption={said.caption(requests)}
        rows={posts}
        rowKey={({ name }) => name}
        empty={<Note kind="empty">{said.none}</Note>}
        columns={[
          { key: "name", head: heads.name, cell: ({ name }) => name },
          { key: "requests", head: heads.requests, figures: true, cell: ({ requests: n }) => whole(n) },
          { key: "accepted", head: heads.accepted, figures: true, cell: ({ accepted }) => whole(accepted) },
          {
            key: "refused",
            head: heads.refused,
            figures: true,
            cell: ({ refused, latestRefusedId }) =>
              latestRefusedId === null ? (
                <span className={styles.zero}>0</span>
              ) : (
                <Link href={`/intake/${latestRefusedId}`}>{whole(refused)}</Link>
              ),
          },
          { key: "alarms", head: heads.alarms, figures: true, cell: ({ alarms }) => whole(alarms) },
          {
            key: "latest",
            head: heads.latest,
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
