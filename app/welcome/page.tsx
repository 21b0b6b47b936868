import { openPage } from "../access";
import { PageFrame } from "../fittings/page-frame";
import { words } from "../language/language";
import { WelcomeForm } from "./welcome-form";

export async function generateMetadata() {
  return { title: (await words()).welcome.title };
}

/** Opened with the one-time link that an admin handed over. The link's secret stays in the browser until it is sent. */
export default async function WelcomePage() {
  await openPage("/welcome");
  const { welcome: said } = await words();
  return (
    <PageFrame title={said.title} purpose={said.purpose}>
      <WelcomeForm words={said.form} />
    </PageFrame>
  );
}
