using System.Diagnostics;
using Athwart.Microphones.Choosing;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Levels;
using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Tests.Choosing;

public sealed class Bench(ITestOutputHelper o)
{
    [Fact]
    public void T()
    {
        var mics = Enumerable.Range(0, 40).Select(n => new Microphone { Name = "m" + n, Price = new(100 + n * 7, "EUR"), WeightGrams = 50 + n, LengthMillimetres = 100, DiameterMillimetres = 20, PhantomMilliamperes = 2, Settings = [new() { Pattern = new FirstOrderPattern(0.2 + n * 0.015), SensitivityMillivoltsPerPascal = 10 + n, EquivalentNoiseDecibelsA = 10 + n % 7, MaximumLevelDecibels = 130, HighHertz = 20000 }] })
            .Concat(Enumerable.Range(0, 12).Select(n => new Microphone { Name = "s" + n, Price = new(300 + n * 70, "EUR"), WeightGrams = 50 + n, LengthMillimetres = 100, DiameterMillimetres = 20, PhantomMilliamperes = 2, Settings = [new() { Pattern = FirstOrderPattern.FigureEight, SensitivityMillivoltsPerPascal = 5 + n, EquivalentNoiseDecibelsA = 12 + n % 7, MaximumLevelDecibels = 130, HighHertz = 20000 }] }));
        var kit = new Kit { Microphones = [.. mics], Recorders = [.. Enumerable.Range(0, 3).Select(n => new Recorder { Name = "r" + n, InputCount = 2, EquivalentInputNoiseDecibelsU = -125 - n, MaximumInputDecibelsU = 4, MinimumGainDecibels = 0, MaximumGainDecibels = 60, GainStepDecibels = 1, PhantomMilliamperes = 20, MaximumRateHertz = 96000, DecodesForMonitoring = n == 1, Price = new(150, "EUR") })] };
        var wishes = new Wishes { Budget = new(900, "EUR"), Coverage = new(110), QuietestDecibels = 45, Loudest = LoudestSound.FromLevel(95) };
        for (var i = 0; i < 6; i++)
        {
            var w = Stopwatch.StartNew();
            var c = PairSearch.Run(kit, wishes);
            o.WriteLine($"{w.Elapsed.TotalMilliseconds:0.0} ms, {c.Ranked.Count} ranked, {c.Rejected.Count} rejected, tradeoffs {c.Ranked.Count(r => r.IsTradeOff)}");
            if (i == 5)
                foreach (var r in c.Ranked.Take(8)) o.WriteLine($"{r.Place} {r.Mid.Name} + {r.Side.Name} @ {r.SideLevel} {r.Recorder!.Name}: {r.Reason} {r.Score:0.00} {r.IsTradeOff}");
        }
    }
}
