using System.Diagnostics;
using Athwart.Accuracy;

var options = Options.Parse(args);
var clock = Stopwatch.StartNew();
if (options.Pairs)
    PairRun.Run(options);
else if (options.Cost)
    CostRun.Run();
else
    FaultRun.Run(options);
await Console.Error.WriteLineAsync(FormattableString.Invariant($"{clock.Elapsed.TotalSeconds:0} s"));
