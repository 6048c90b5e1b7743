using System.Diagnostics;
using System.Globalization;
using Athwart.Metering;
using Athwart.Metering.Direction;
using Athwart.Metering.Faults;
using Athwart.Metering.Slate;
using Athwart.Scenes.Numbers;

namespace Athwart.Accuracy;

/// <summary>What each part of the check costs: 60 s at 96 kHz on one thread, processor time, the best of five.</summary>
internal static class CostRun
{
    private const int Rate = 96_000, Seconds = 60, Rounds = 5, Block = 4096;

    public static void Run()
    {
        var (mid, side) = Sound();
        Console.WriteLine("| part | processor time for 60 s of 96 kHz | times real time |\n|---|---|---|");
        Row("levels, true peaks, loudness, correlation, runs", () => Meter(mid, side, false, false));
        Row("the same and the held spectrum", () => Meter(mid, side, true, false));
        Row("everything", () => Meter(mid, side, true, true));
        Row("everything, and the findings", () => TakeDetectors.Find(Meter(mid, side, true, true)));
        Row("alone: past samples", () => Each(mid, side, new PairHistory(), static (h, m, s, _) => h.Add(m, s)));
        Row("alone: clicks, breaks", () =>
        {
            ClickScan a = new(SampleScale.OfBits(24), Rate), b = new(SampleScale.OfBits(24), Rate);
            Each(mid, side, (a, b), static (x, m, s, at) =>
            {
                x.a.Add(m, at);
                x.b.Add(s, at);
                x.a.Look(x.b);
                x.b.Look(x.a);
            });
        });
        Row("alone: repeated blocks, with the past", () => Each(mid, side, (History: new PairHistory(), Scan: new RepeatScan()), static (x, m, s, _) =>
        {
            x.History.Add(m, s);
            x.Scan.Scan(x.History);
        }));
        Row("alone: dropouts, with the past", () => Each(mid, side, (History: new PairHistory(), Scan: new DropoutScan(SampleScale.OfBits(24), Rate)), static (x, m, s, _) =>
        {
            x.History.Add(m, s);
            x.Scan.Scan(x.History.Mid, x.History.First, x.History.Origin);
            x.Scan.Scan(x.History.Side, x.History.First, x.History.Origin);
        }));
        Row("alone: hum, wind, thumps (2 kHz)", () => Each(mid, side, new LowBand(Rate), static (x, m, s, _) => x.Add(m, s)));
        Row("alone: voice slate (the first 40 s only)", () =>
        {
            var slate = new SlateScan(Rate);
            Each(mid, side, slate, static (x, m, s, _) => x.Add(m, s));
            slate.Complete();
        });
        Row("beside it: direction trail", () => Each(mid, side, new DirectionMeter(mid.Length, Rate, 240), static (x, m, s, _) => x.Add(m, s)));
        Row("alone: spectra, lines, delay, kind of pair", () =>
        {
            var spectrum = new PairSpectrum(new(Rate));
            Each(mid, side, spectrum, static (x, m, s, at) =>
            {
                if (m.Length == Block)
                    x.Add(m, s, at);
            });
        });
    }

    private static TakeMeasures Meter(float[] mid, float[] side, bool spectrum, bool faults)
    {
        var meter = new TakeMeter(Rate, SampleScale.OfBits(24), new() { Spectrum = spectrum, Faults = faults });
        meter.Add(mid, side);
        return meter.Complete();
    }

    private delegate void Take<T>(T part, ReadOnlySpan<float> mid, ReadOnlySpan<float> side, long at);

    private static void Each<T>(float[] mid, float[] side, T part, Take<T> take)
    {
        for (var at = 0; at < mid.Length; at += Block)
        {
            var count = Math.Min(Block, mid.Length - at);
            take(part, mid.AsSpan(at, count), side.AsSpan(at, count), at);
        }
    }

    private static void Row(string name, Action work)
    {
        var best = double.PositiveInfinity;
        using var process = Process.GetCurrentProcess();
        for (var i = 0; i < Rounds; i++)
        {
            var before = process.UserProcessorTime;
            work();
            process.Refresh();
            best = Math.Min(best, (process.UserProcessorTime - before).TotalSeconds);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {name} | {best:0.000} s | {Seconds / best:0} |"));
    }

    /// <summary>A bed of noise with bursts, as effects are.</summary>
    private static (float[] Mid, float[] Side) Sound()
    {
        var chance = new Chance(1);
        var (mid, side) = (new float[Rate * Seconds], new float[Rate * Seconds]);
        var (a, b) = (0.0, 0.0);
        for (var i = 0; i < mid.Length; i++)
        {
            var burst = 0.02 + (0.5 * Math.Exp(-(i % (2 * Rate)) / (0.2 * Rate)));
            a = (0.9 * a) + chance.Normal();
            b = (0.9 * b) + chance.Normal();
            (mid[i], side[i]) = ((float)(0.05 * burst * a), (float)(0.03 * burst * b));
        }

        return (mid, side);
    }
}
