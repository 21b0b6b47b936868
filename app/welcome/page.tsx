import { openPage } from "../access";
import { PageFrame } from "../fittings/page-frame";
import { WelcomeForm } from "./welcome-form";

export const metadata = { title: "Welcome" };

/** Opened with the one-time link that an admin handed over. The link's secret stays in the browser until it is sent. */
export default async function WelcomePage() {
  await openPage("/welcome");
  return (
    <PageFrame title="Welcome" purpose="Choose the password with which you sign in from now on.">
      <WelcomeForm />
    </PageFrame>
  );
}
