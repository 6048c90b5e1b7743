using System.Globalization;
using Athwart.Metering;
using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rigs;

namespace Athwart.Accuracy;

/// <summary>Plants faults, checks, and prints the table.</summary>
internal sealed class FaultRun
{
    // What is true of a take and not of its recording: a source beside the rig is loud in the side, and so on.
    private static readonly string[] True = [FindingKinds.DecodedOverload, FindingKinds.LowCorrelation, FindingKinds.OutOfPhase, FindingKinds.SideWeak, FindingKinds.SideStrong];

    private readonly Lock _lock = new();
    private readonly Dictionary<(string, bool), Tally> _tallies = [];
    private readonly Dictionary<string, int> _false = new(StringComparer.Ordinal);
    private readonly int[] _clean = new int[2], _warned = new int[2], _warnings = new int[2];

    public static void Run(Options options)
    {
        var run = new FaultRun();
        var pieces = options.Folder is { } folder ? RealTakes.Pieces(folder) : [];
        var numbers = pieces.Count > 0 ? Enumerable.Range(0, pieces.Count) : options.Real ? Enumerable.Range(0, RealTakes.Names.Count) : Enumerable.Range(options.First, options.Scenes);
        BaseTake Take(int number) => pieces.Count > 0 ? RealTakes.ReadPiece(number, pieces[number]) : options.Real ? RealTakes.Read(number) : BaseTake.Generated(number);
        var parallel = new ParallelOptions { MaxDegreeOfParallelism = options.Threads };
        Parallel.ForEach(numbers, parallel, number => run.Scene(Take(number), options));
        run.Print();
    }

    /// <summary>The findings of a take, as the check would give them.</summary>
    public static IReadOnlyList<Finding> Check(float[] mid, float[] side, int rate, SampleWord word)
    {
        var scale = word == SampleWord.Floating ? SampleScale.FloatingPoint : SampleScale.OfBits(word == SampleWord.Bits16 ? 16 : 24);
        return TakeDetectors.Find(Measure(mid, side, rate, scale));
    }

    public static TakeMeasures Measure(float[] mid, float[] side, int rate, SampleScale scale)
    {
        var meter = new TakeMeter(rate, scale, new() { Faults = true, TruePeak = false });
        meter.Add(mid, side);
        return meter.Complete();
    }

    /// <summary>Thresholds were set on the even scenes, figures are of the odd ones.</summary>
    private static bool Reported(BaseTake take) => take.Number % 2 == 1;

    private void Scene(BaseTake take, Options options)
    {
        if (!take.IsPair)
        {
            Console.WriteLine($"  {Name(take)} is left out: one role lies 60 dB and more below the other");
            return;
        }

        var all = Plantings.All.Where(p => options.Fault is not { } name || p.Name.Contains(name, StringComparison.OrdinalIgnoreCase)).ToList();
        if (options.Fault is null or "clean")
            Clean(take, options);
        var count = options.Recorded || options.Every || options.Fault is not null ? all.Count : options.FaultsOfAScene;
        for (var i = 0; i < count && all.Count > 0; i++)
            Plant(take, all[((take.Number * count) + i) % all.Count], options);
    }

    private void Clean(BaseTake take, Options options)
    {
        var (mid, side, _) = Planter.Finish(take, []);
        var warnings = Check(mid, side, take.Rate, take.Scene.Rig.Word).Where(f => f.Severity >= FindingSeverity.Caution && !True.Contains(f.Kind, StringComparer.Ordinal)).ToList();
        var half = Reported(take) ? 1 : 0;
        lock (_lock)
        {
            _clean[half]++;
            _warnings[half] += warnings.Count;
            _warned[half] += warnings.Count > 0 ? 1 : 0;
            foreach (var kind in warnings.Select(f => f.Kind).Distinct(StringComparer.Ordinal))
                _false[kind] = _false.GetValueOrDefault(kind) + 1;
        }

        if (options.List)
        {
            foreach (var finding in warnings)
                Console.WriteLine($"  {Name(take)} clean: {finding.Kind} {finding.Message}");
        }
    }

    private static string Name(BaseTake take) => take.Name is null ? $"#{take.Number} {take.Rate} {take.Scene.Rig.Word} {string.Join('+', take.Scene.Sources.Select(s => s.Signal.GetType().Name))}" : $"#{take.Number} {take.Name}";

    private void Plant(BaseTake take, Planting planting, Options options)
    {
        var chance = new Chance(take.Scene.Seed + 5).Fork(planting.Name);
        if (planting.Plant(take, chance) is not { } planted)
            return;
        var (mid, side, truth) = Planter.Finish(take, planted.Faults);
        if (planted.Needs is { } needs && truth.Where(i => string.Equals(i.Kind, needs.Kind, StringComparison.Ordinal)).SelectMany(i => i.Places).Count(r => r.Length.Value >= 4) < needs.Runs)
            return;
        var findings = Check(mid, side, take.Rate, take.Scene.Rig.Word);
        string? wrong;
        lock (_lock)
        {
            if (!_tallies.TryGetValue((planting.Name, Reported(take)), out var tally))
                _tallies[(planting.Name, Reported(take))] = tally = new();
            wrong = tally.Add(planted, findings, truth);
        }

        if (options.List && wrong is not null)
            Console.WriteLine($"  {Name(take)} {planting.Name}: {wrong}; {planted.Faults[0]} {string.Join(" ", truth.SelectMany(i => i.Places).OrderByDescending(r => r.Length.Value).Take(4).Select(r => r.Length.Value))}; said {string.Join(", ", findings.Select(f => f.Kind).Distinct(StringComparer.Ordinal))}");
    }

    private void Print()
    {
        foreach (var reported in (bool[])[false, true])
        {
            var half = reported ? 1 : 0;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"\n{(reported ? "Reported half" : "Half on which thresholds were set")}: {_clean[half]} clean takes, {_warned[half]} with a warning, {_warnings[half]} warnings"));
            Console.WriteLine("| fault | size | takes | found | wrong role | figures |\n|---|---|---|---|---|---|");
            foreach (var planting in Plantings.All)
            {
                if (_tallies.TryGetValue((planting.Name, reported), out var t))
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {planting.Name} | {planting.Size} | {t.Planted} | {t.Found} ({100.0 * t.Found / t.Planted:0} %) | {t.WrongRole} | {Figures(t)} |"));
            }
        }

        Console.WriteLine("\nWarnings on clean takes: " + string.Join(", ", _false.Select(f => $"{f.Key} {f.Value}")));
    }

    private static string Figures(Tally t)
    {
        var parts = new List<string>();
        if (t.Errors.Count > 0)
        {
            var sorted = t.Errors.Select(Math.Abs).Order().ToList();
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"{t.NumberName}: {sorted.Count(e => e <= t.Tolerance)} of {sorted.Count} within {t.Tolerance:0.###}, median error {sorted[sorted.Count / 2]:0.####}, largest {sorted[^1]:0.###}"));
        }

        if (t.Edges > 0)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"edges to the frame {t.EdgesMet} of {t.Edges}"));
        return string.Join("; ", parts);
    }
}
