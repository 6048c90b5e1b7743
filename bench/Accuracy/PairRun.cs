using System.Globalization;
using Athwart.Metering;
using Athwart.Metering.Faults;
using Athwart.Scenes.Faults;
using Athwart.Scenes.Numbers;

namespace Athwart.Accuracy;

/// <summary>Fits and calibrates the probabilities that a pair is swapped or decoded.</summary>
internal static class PairRun
{
    private sealed record Row(int Number, int Truth, PairNumbers Numbers);

    public static void Run(Options options)
    {
        var rows = new List<Row>();
        var gate = new Lock();
        var count = options.Real ? RealTakes.Names.Count : options.Scenes;
        Parallel.ForEach(Enumerable.Range(options.First, count), new ParallelOptions { MaxDegreeOfParallelism = options.Threads }, number =>
        {
            var some = Rows(options.Real ? RealTakes.Read(number) : BaseTake.Aimed(number)).ToList();
            lock (gate)
                rows.AddRange(some);
        });
        rows.Sort((a, b) => a.Number.CompareTo(b.Number));
        if (!options.Real)
            Fit(rows.FindAll(r => r.Number % 2 == 0));
        Console.WriteLine("as in the program:");
        var reported = options.Real ? rows : rows.FindAll(r => r.Number % 2 == 1);
        Report(reported, PairModel.Coefficients);
        if (options.Real)
            return;
        Console.WriteLine("of these, scenes in which the mid points at the loudest source:");
        Report(reported.FindAll(r => AimedScenes.IsAimed(r.Number)), PairModel.Coefficients);
    }

    /// <summary>A take as it is, swapped and decoded, with gains and low ends of the side as rigs have them.</summary>
    private static IEnumerable<Row> Rows(BaseTake take)
    {
        for (var variant = 0; variant < 6; variant++)
        {
            var chance = new Chance(take.Scene.Seed).Fork("pair", variant);
            List<Fault> faults = [new GainFault(variant < 3 ? 0 : chance.Between(-6, 4)) { Role = Quantities.ChannelRole.Side }];
            if (variant >= 3 && chance.Unit() < 0.5)
                faults.Add(new LowEndMissing(chance.Ratio(30, 120), 1));
            if (variant % 3 == 1)
                faults.Add(new SwappedRoles());
            if (variant % 3 == 2)
                faults.Add(new AlreadyDecoded(chance.Between(-6, 3)));
            var (mid, side, _) = Planter.Finish(take, faults);
            var measures = FaultRun.Measure(mid, side, take.Rate, SampleScale.OfBits(24));
            if (PairNumbers.Of(measures, measures.Faults!) is { } numbers)
                yield return new(take.Number, variant % 3, numbers);
        }
    }

    /// <summary>Steps down the slope of the likelihood, with a weight that keeps the coefficients small.</summary>
    private static void Fit(List<Row> rows)
    {
        var w = new double[PairModel.Signed + PairModel.Symmetric];
        for (var round = 0; round < 20_000; round++)
        {
            var slope = new double[w.Length];
            foreach (var row in rows)
            {
                var (a, b, c) = PairModel.Of(row.Numbers, w);
                for (var i = 0; i < PairModel.Signed; i++)
                    slope[i] += (((row.Truth == 0 ? 1 : 0) - a) * row.Numbers.Straight[i]) + (((row.Truth == 1 ? 1 : 0) - b) * row.Numbers.Swapped[i]);
                for (var i = 0; i < PairModel.Symmetric; i++)
                    slope[PairModel.Signed + i] += ((row.Truth == 2 ? 1 : 0) - c) * row.Numbers.Decoded[i];
            }

            for (var i = 0; i < w.Length; i++)
                w[i] += 0.3 * ((slope[i] / rows.Count) - (0.002 * w[i]));
        }

        Console.WriteLine("fitted: [" + string.Join(", ", w.Select(x => x.ToString("0.00", CultureInfo.InvariantCulture))) + "]");
        Report(rows, w);
    }

    private static void Report(List<Row> rows, IReadOnlyList<double> w)
    {
        foreach (var (name, truth) in ((string, int)[])[("roles swapped", 1), ("already decoded", 2)])
        {
            var said = rows.ConvertAll(r => (P: PairModel.Of(r.Numbers, w) is var p && truth == 1 ? p.Swapped : p.Decoded, Is: r.Truth == truth));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: of {said.Count(s => s.Is)} planted {said.Count(s => s.Is && s.P >= 0.7)} said with 70 % or more, {said.Count(s => !s.Is && s.P >= 0.7)} of {said.Count(s => !s.Is)} others"));
            double[] edges = [0, 0.1, 0.3, 0.5, 0.7, 0.85, 0.95, 1.01];
            for (var i = 0; i + 1 < edges.Length; i++)
            {
                var some = said.FindAll(s => s.P >= edges[i] && s.P < edges[i + 1]);
                if (some.Count > 0)
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {100 * edges[i]:0} to {100 * Math.Min(1, edges[i + 1]):0} % | {some.Count} | mean said {100 * some.Average(s => s.P):0} % | are so {100.0 * some.Count(s => s.Is) / some.Count:0} % |"));
            }
        }
    }
}
