// Nothing: it stands for a user's file, so that the build can say which arguments one is compiled with.
