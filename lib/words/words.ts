import { COMMON } from "./common";
import { access as germanAccess } from "./de/access";
import { alarms as germanAlarms } from "./de/alarms";
import { assumptions as germanAssumptions } from "./de/assumptions";
import { bench as germanBench } from "./de/bench";
import { board as germanBoard } from "./de/board";
import { budget as germanBudget } from "./de/budget";
import { capability as germanCapability } from "./de/capability";
import { charts as germanCharts } from "./de/charts";
import { claims as germanClaims } from "./de/claims";
import { desk as germanDesk } from "./de/desk";
import { drift as germanDrift } from "./de/drift";
import { driftPage as germanDriftPage } from "./de/drift-page";
import { estimators as germanEstimators } from "./de/estimators";
import { features as germanFeatures } from "./de/features";
import { formulas as germanFormulas } from "./de/formulas";
import { frame as germanFrame } from "./de/frame";
import { gaugeStudies as germanGaugeStudies } from "./de/gauge-studies";
import { gauges as germanGauges } from "./de/gauges";
import { glossary as germanGlossary } from "./de/glossary";
import { handover as germanHandover } from "./de/handover";
import { intake as germanIntake } from "./de/intake";
import { lesson as germanLesson } from "./de/lesson";
import { otherCharts as germanOtherCharts } from "./de/other-charts";
import { people as germanPeople } from "./de/people";
import { performance as germanPerformance } from "./de/performance";
import { plan as germanPlan } from "./de/plan";
import { plant as germanPlant } from "./de/plant";
import { problems as germanProblems } from "./de/problems";
import { reactionPlans as germanReactionPlans } from "./de/reaction-plans";
import { reactions as germanReactions } from "./de/reactions";
import { record as germanRecord } from "./de/record";
import { refusals as germanRefusals } from "./de/refusals";
import { signIn as germanSignIn } from "./de/sign-in";
import { standing as germanStanding } from "./de/standing";
import { statements as germanStatements } from "./de/statements";
import { storedTexts as germanStoredTexts } from "./de/stored-texts";
import { studyForm as germanStudyForm } from "./de/study-form";
import { welcome as germanWelcome } from "./de/welcome";
import { working as germanWorking } from "./de/working";
import { access } from "./en/access";
import { alarms } from "./en/alarms";
import { assumptions } from "./en/assumptions";
import { bench } from "./en/bench";
import { board } from "./en/board";
import { budget } from "./en/budget";
import { capability } from "./en/capability";
import { charts } from "./en/charts";
import { claims } from "./en/claims";
import { desk } from "./en/desk";
import { drift } from "./en/drift";
import { driftPage } from "./en/drift-page";
import { estimators } from "./en/estimators";
import { features } from "./en/features";
import { formulas } from "./en/formulas";
import { frame } from "./en/frame";
import { gaugeStudies } from "./en/gauge-studies";
import { gauges } from "./en/gauges";
import { glossary } from "./en/glossary";
import { handover } from "./en/handover";
import { intake } from "./en/intake";
import { lesson } from "./en/lesson";
import { otherCharts } from "./en/other-charts";
import { people } from "./en/people";
import { performance } from "./en/performance";
import { plan } from "./en/plan";
import { plant } from "./en/plant";
import { problems } from "./en/problems";
import { reactionPlans } from "./en/reaction-plans";
import { reactions } from "./en/reactions";
import { record } from "./en/record";
import { refusals } from "./en/refusals";
import { signIn } from "./en/sign-in";
import { standing } from "./en/standing";
import { statements } from "./en/statements";
import { storedTexts } from "./en/stored-texts";
import { studyForm } from "./en/study-form";
import { welcome } from "./en/welcome";
import { working } from "./en/working";
import type { Language } from "./language";

/** Everything the pages say in English, which is also what the command line passes to lib. */
export const ENGLISH = {
  ...COMMON.en,
  frame,
  signIn,
  board,
  alarms,
  performance,
  reactions,
  handover,
  drift,
  driftPage,
  plant,
  charts,
  standing,
  features,
  refusals,
  access,
  people,
  welcome,
  record,
  claims,
  statements,
  capability,
  formulas,
  lesson,
  glossary,
  problems,
  estimators,
  assumptions,
  working,
  otherCharts,
  plan,
  budget,
  reactionPlans,
  gauges,
  gaugeStudies,
  studyForm,
  intake,
  desk,
  bench,
  storedTexts,
};

/** Every word of a language. A text that German lacks is a type error here or in its own module. */
export type Words = typeof ENGLISH;

const GERMAN: Words = {
  ...COMMON.de,
  frame: germanFrame,
  signIn: germanSignIn,
  board: germanBoard,
  alarms: germanAlarms,
  performance: germanPerformance,
  reactions: germanReactions,
  handover: germanHandover,
  drift: germanDrift,
  driftPage: germanDriftPage,
  plant: germanPlant,
  charts: germanCharts,
  standing: germanStanding,
  features: germanFeatures,
  refusals: germanRefusals,
  access: germanAccess,
  people: germanPeople,
  welcome: germanWelcome,
  record: germanRecord,
  claims: germanClaims,
  statements: germanStatements,
  capability: germanCapability,
  formulas: germanFormulas,
  lesson: germanLesson,
  glossary: germanGlossary,
  problems: germanProblems,
  estimators: germanEstimators,
  assumptions: germanAssumptions,
  working: germanWorking,
  otherCharts: germanOtherCharts,
  plan: germanPlan,
  budget: germanBudget,
  reactionPlans: germanReactionPlans,
  gauges: germanGauges,
  gaugeStudies: germanGaugeStudies,
  studyForm: germanStudyForm,
  intake: germanIntake,
  desk: germanDesk,
  bench: germanBench,
  storedTexts: germanStoredTexts,
};

export const WORDS: Record<Language, Words> = { en: ENGLISH, de: GERMAN };
