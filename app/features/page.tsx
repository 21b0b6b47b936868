import { pageAsked } from "../../lib/format/paged";
import { requirePage } from "../access";
import { PageFrame } from "../fittings/page-frame";
import { words } from "../language/language";
import { FeatureList } from "./feature-list";

export async function generateMetadata() {
  return { title: (await words()).features.title };
}

type SearchParams = Record<string, string | string[] | undefined>;

/** Every feature with where it stands, to be searched. */
export default async function FeaturesPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  await requirePage("/features");
  const { part, find, page } = await searchParams;
  const { features: said } = await words();
  return (
    <PageFrame title={said.title} purpose={said.purpose}>
      <FeatureList
        part={typeof part === "string" ? part : ""}
        find={typeof find === "string" ? find : ""}
        page={pageAsked(page)}
      />
    </PageFrame>
  );
}
