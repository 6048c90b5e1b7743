using Athwart.Bench;

var options = BenchOptions.Parse(args);
if (options is null)
{
    Console.Error.WriteLine(BenchOptions.Usage);
    return 2;
}

var places = Places.Prepare(options);
var results = new List<ContestResult>();
foreach (var contest in ContestList.All(places).Where(contest => contest.Name.Contains(options.Only, StringComparison.OrdinalIgnoreCase)))
{
    Console.Error.WriteLine($"{contest.Name} ...");
    var result = ContestRunner.Run(contest, options.Rounds);
    results.Add(result);
    Console.Error.Write(ReportWriter.Lines(result));
}

var preview = "";
if (!options.References && PreviewRun.Name.Contains(options.Only, StringComparison.OrdinalIgnoreCase))
{
    Console.Error.WriteLine($"{PreviewRun.Name} ...");
    preview = PreviewRun.Run(places, options.Rounds);
    Console.Error.Write(preview);
}

var report = ReportWriter.Page(results, preview, options, places.Root);
Console.Write(report);
if (options.Write)
    File.WriteAllText(Path.Combine(places.Root, "docs", "benchmarks.md"), report);
return results.Exists(result => result.Failed) ? 1 : 0;
