using Athwart.Cli;

return await CommandTree.RunAsync(args, Screen.ForProcess());
