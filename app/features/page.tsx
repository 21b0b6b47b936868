import { requirePage } from "../access";
import { PageFrame } from "../fittings/page-frame";
import { FeatureList } from "./feature-list";

export const metadata = { title: "Features" };

type SearchParams = Record<string, string | string[] | undefined>;

/** Every feature with where it stands, to be searched. */
export default async function FeaturesPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  await requirePage("/features");
  const { part, find } = await searchParams;
  return (
    <PageFrame
      title="Features"
      purpose="Every measured feature and where it stands; its name leads to its control chart."
    >
      <FeatureList part={typeof part === "string" ? part : ""} find={typeof find === "string" ? find : ""} />
    </PageFrame>
  );
}
