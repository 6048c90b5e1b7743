using Athwart.Desk;

return await DeskProgram.RunAsync(args, Console.Out, Console.Error);
