using System.Diagnostics;
using System.Globalization;
using System.Text;
using Athwart.Jobs.Shape;
using Athwart.Signals.Convolution;
using Athwart.Signals.Shaping;

namespace Athwart.Bench;

/// <summary>
/// How long after asking any 10 s of a 2-hour take are there, under the full treatment: inside one process, as a program with a window
/// has it. The take is a sparse file with sound around the places that are asked for, and is deleted afterwards.
/// </summary>
internal static class PreviewRun
{
    public const string Name = "preview of 10 s of a 2-hour take of 96 kHz, full treatment";

    private const int Rate = 96_000, TakeSeconds = 7200, PieceSeconds = 10;
    private const int BoundMilliseconds = 150;

    // Far apart, so that nothing of one is at hand for the next.
    private static readonly int[] Places = [6800, 411, 3600, 5222, 1507, 2750, 4444, 6031];

    /// <summary>Measures and gives the lines of the table.</summary>
    public static string Run(Places places, int rounds)
    {
        var path = Path.Combine(places.Work, "preview.wav");
        try
        {
            InputMaker.MakeSparse(path, TakeSeconds, Rate, Places.Select(p => (p - 5, 20)), seed: 3);
            return Measure(path, Path.Combine(places.Root, "bench", "treatments", "full.json"), rounds);
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static string Measure(string path, string treatment, int rounds)
    {
        var take = ShapedTake.Open(new() { Take = path, Treatment = treatment }, CancellationToken.None);
        var (left, right) = (new float[PieceSeconds * Rate], new float[PieceSeconds * Rate]);
        var steps = take.Treated.Steps;
        var cold = Measured(() => Ask(take, steps, Places[0]));
        List<Time> moved = [], trimmed = [], matched = [];
        // The first rounds let the program be compiled in full; they are not counted.
        for (var round = -2; round < rounds; round++)
        {
            using var open = Open(take, steps);
            foreach (var place in Places)
            {
                var change = round + 3 + (place / 1e4);
                Note(moved, round, () => open.ReadStereo((long)place * Rate, left, right));
                Note(trimmed, round, () => Ask(take, Trimmed(steps, -change), place));
                Note(matched, round, () => Ask(take, Matched(steps, change / 4), place));
            }
        }

        return Lines([("another place", moved, true), ("a trim changed", trimmed, true), ("the response match changed", matched, false), ("the first of the process", [cold], false)]);

        void Ask(ShapedTake of, IReadOnlyList<TreatmentStep> with, int place)
        {
            using var preview = Open(of, with);
            preview.ReadStereo((long)place * Rate, left, right);
        }
    }

    private static Preview Open(ShapedTake take, IReadOnlyList<TreatmentStep> steps) => new(take.Take, take.Roles, steps, take.SideLevel.AmplitudeRatio);

    private static IReadOnlyList<TreatmentStep> Trimmed(IReadOnlyList<TreatmentStep> steps, double decibels) => Changed(steps, new Trim(PairRoles.Both, decibels));

    private static IReadOnlyList<TreatmentStep> Matched(IReadOnlyList<TreatmentStep> steps, double decibels) =>
        Changed(steps, new ResponseMatch(PairRoles.Side, [new(100, decibels), new(125, 1), new(4000, -1), new(8000, 2)], FilterPhase.Minimum));

    private static IReadOnlyList<TreatmentStep> Changed(IReadOnlyList<TreatmentStep> steps, object settings) =>
        [.. steps.Select(s => s.Settings.GetType() == settings.GetType() ? TreatmentStep.Of(settings) : s)];

    private static void Note(List<Time> times, int round, Action work)
    {
        var time = Measured(work);
        if (round >= 0)
            times.Add(time);
    }

    private static Time Measured(Action work)
    {
        var (clock, before) = (Stopwatch.StartNew(), Environment.CpuUsage.TotalTime);
        work();
        return new(clock.Elapsed.TotalMilliseconds, (Environment.CpuUsage.TotalTime - before).TotalMilliseconds);
    }

    private static string Lines(IReadOnlyList<(string What, List<Time> Times, bool Bound)> cases)
    {
        var lines = new StringBuilder();
        foreach (var (place, (what, times, bound)) in cases.Index())
        {
            var (wall, processor) = (Statistics.Median([.. times.Select(t => t.Wall)]), Statistics.Median([.. times.Select(t => t.Processor)]));
            var asked = bound ? string.Create(CultureInfo.InvariantCulture, $"under {BoundMilliseconds} ms: {(wall < BoundMilliseconds ? "met" : "not met")}") : "";
            lines.Append(CultureInfo.InvariantCulture, $"| {(place == 0 ? Name : "")} | {what} | {wall:0} ms, at worst {times.Max(t => t.Wall):0} ms |  | {asked} | {processor:0} ms |  |\n");
        }

        return lines.ToString();
    }

    /// <summary>In milliseconds; the processor time is that of the whole process, whatever else the machine does.</summary>
    private readonly record struct Time(double Wall, double Processor);
}
