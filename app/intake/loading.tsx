import { LoadingRows } from "../fittings/loading";
import { PageFrame } from "../fittings/page-frame";

export default function Loading() {
  return (
    <PageFrame title="Intake">
      <LoadingRows label="Intake is being read." rows={10} />
    </PageFrame>
  );
}
