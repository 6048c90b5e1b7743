using System.Globalization;
using System.Text;

namespace Athwart.Bench;

/// <summary>Figures to Markdown.</summary>
internal static class ReportWriter
{
    private static CultureInfo Invariant => CultureInfo.InvariantCulture;

    public static string Page(IReadOnlyList<ContestResult> results, string preview, BenchOptions options, string root)
    {
        var page = new StringBuilder();
        page.Append(Invariant, $"# Benchmarks\n\nWritten by `bench/Bench`; see [bench/README.md](../bench/README.md). Do not edit by hand.\n\n");
        page.Append(Invariant, $"- Date: {TimeProvider.System.GetUtcNow():yyyy-MM-dd HH:mm} UTC\n- Processor: {Machine.Processor()}, {Environment.ProcessorCount} cores\n");
        page.Append(Invariant, $"- Programs: {Machine.Programs()}\n- Load of the machine when the run ended: {Machine.Load()}\n");
        page.Append(Invariant, $"- Medians of {options.Rounds} interleaved rounds (four times as many for work under a second), whole process, page cache warm. ");
        page.Append("A ratio is the median over the rounds of the other program's figure divided by ours in the same round: above 1 we are faster, or smaller.\n\n");
        page.Append("| work | program | median | ratio | asked for | processor time | ratio of it |\n|---|---|---:|---:|---|---:|---:|\n");
        foreach (var result in results)
            page.Append(Lines(result));
        page.Append(preview);
        page.Append("\n## Commands\n");
        foreach (var result in results)
        {
            page.Append(Invariant, $"\n### {result.Contest.Name}\n\n```sh\n");
            foreach (var entrant in result.Contest.Entrants)
                page.Append(Invariant, $"{entrant.CommandLine.Replace(root + Path.DirectorySeparatorChar, "", StringComparison.Ordinal)}\n");
            page.Append("```\n");
        }

        return page.ToString();
    }

    public static string Lines(ContestResult result)
    {
        var lines = new StringBuilder();
        foreach (var (place, entrant) in result.Results.Index())
            lines.Append(Invariant, $"| {(place == 0 ? result.Contest.Name : "")} | {entrant.Entrant.Name} | {Figure(result.Contest, entrant)} | {Ratio(result, entrant, place)} | {Asked(result, entrant, place)} | {Busy(result, entrant)} | {BusyRatio(result, entrant, place)} |\n");
        return lines.ToString();
    }

    private static string Figure(Contest contest, EntrantResult entrant)
    {
        if (entrant.Fault is not null)
            return entrant.Fault.Replace('|', '/');
        if (contest.Measure == ContestMeasure.Mebibytes)
            return string.Create(Invariant, $"{entrant.Median:0.0} MiB");
        return entrant.Median < 0.1 ? string.Create(Invariant, $"{entrant.Median * 1000:0.0} ms") : string.Create(Invariant, $"{entrant.Median:0.00} s");
    }

    private static string Busy(ContestResult result, EntrantResult entrant) =>
        result.Contest.Measure == ContestMeasure.Seconds && entrant.Fault is null ? string.Create(Invariant, $"{Statistics.Median(entrant.Processor):0.00} s") : "";

    private static string BusyRatio(ContestResult result, EntrantResult entrant, int place) =>
        Ratio(result, entrant, place).Length > 0 && result.ProcessorRatio(entrant) is > 0 and < 1000 and var ratio ? string.Create(Invariant, $"{ratio:0.00}") : "";

    private static bool IsOurs(ContestResult result, int place) => result.Contest.HasOurs && place == 0;

    private static string Ratio(ContestResult result, EntrantResult entrant, int place) =>
        !result.Contest.HasOurs || IsOurs(result, place) || entrant.Fault is not null || result.Results[0].Fault is not null
            ? ""
            : string.Create(Invariant, $"{result.Ratio(entrant):0.00}");

    private static string Asked(ContestResult result, EntrantResult entrant, int place)
    {
        if (result.Failed || !result.Contest.HasOurs)
            return "";
        if (IsOurs(result, place))
        {
            return result.Contest.Bound is { } bound
                ? string.Create(Invariant, $"under {(result.Contest.Measure == ContestMeasure.Seconds ? $"{bound * 1000:0} ms" : $"{bound:0} MiB")}: {Met(entrant.Median < bound)}")
                : "";
        }

        return entrant.Entrant.Target is { } target ? string.Create(Invariant, $"{target:0.##}: {Met(result.Ratio(entrant) >= target)}") : "";
    }

    private static string Met(bool met) => met ? "met" : "not met";
}
