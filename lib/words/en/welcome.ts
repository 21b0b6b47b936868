/** The two pages that a one-time link opens. */
export const welcome = {
  title: "Welcome",
  purpose: "Choose the password with which you sign in from now on.",
  form: { saving: "Saving …", choose: "Choose this password" },
  answers: {
    fillBoth: "Nothing saved: fill in both fields.",
    differ: "Nothing saved: the two passwords differ. Type both again.",
  },
  setUp: {
    tab: "Set up",
    title: "The first account",
    purpose:
      "It may add people and give them roles, and it has the engineer's rights to enter the control plan and take files in.",
    ended: "This link has ended",
    endedWhy:
      "It works once, within a day, and a newer one takes its place. If nobody has an account yet, the command {command} prints a new link in the terminal of the machine on which the program runs.",
    signIn: "Sign in",
    form: {
      name: "Your name",
      login: "Login",
      loginHint: "Short, in small letters, such as jr or j.rossi.",
      creating: "Creating …",
      create: "Create the account",
    },
    fillAll: "Nothing saved: fill in all fields.",
  },
};
