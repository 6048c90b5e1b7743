using Athwart.Microphones.Choosing;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Levels;
using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using CsCheck;

namespace Athwart.Microphones.Tests.Choosing;

public static class PairSearchTests
{
    // REFERENCES D2: a cardioid with the side at -3 dB covers 105.0 degrees at 15 dB; half a decibel is the grid.
    [Fact]
    public static void AWantedCoverage_IsMetByTheSideLevelOfTheTable()
    {
        var best = PairSearch.Run(SmallKit.Pair, new() { Coverage = new(105), Matters = [Matter.Coverage] }).Ranked[0];
        Assert.Equal(-3, best.SideLevel.Value);
        Assert.Equal(105, best.Coverage!.Value.Value, 0.05);
        Assert.Equal((1, "mid", "side"), (best.Place, best.Mid.Name, best.Side.Name));
    }

    [Fact]
    public static void WithANoisySide_ALittleCoverageIsGivenUpForLessNoise_WhereNoiseMattersMore()
    {
        var kit = SmallKit.Pair with { Microphones = [SmallKit.Pair.Microphones[0], SmallKit.Microphone("hissing side", FirstOrderPattern.FigureEight, noise: 30)] };
        var coverage = PairSearch.Run(kit, new() { Coverage = new(50), Matters = [Matter.Coverage] }).Ranked[0];
        var noise = PairSearch.Run(kit, new() { Coverage = new(50), Matters = [Matter.Noise, Matter.Cost, Matter.Coverage] }).Ranked[0];
        Assert.True(noise.SideLevel < coverage.SideLevel);
        Assert.True(noise.NoiseDecibelsA < coverage.NoiseDecibelsA);
    }

    // Noise by the four parts, REFERENCES F: powers add, the side's by g squared.
    [Fact]
    public static void TheNoiseOfAChoice_IsThatOfTheDecode()
    {
        var choice = PairSearch.Run(SmallKit.Pair, new() { SideLevel = new(-6) }).Ranked[0];
        var expected = DecodedNoise.For(choice.Mid.Setting, choice.Side.Setting, choice.Recorder, -6);
        Assert.Equal(expected.LeftRightDecibelsA!.Value, choice.NoiseDecibelsA!.Value, 9);
        Assert.Equal(expected.MonoDecibelsA!.Value, choice.MonoNoiseDecibelsA!.Value, 9);
    }

    [Fact]
    public static void OneUnit_IsNeverMidAndSide_AndTwoAre()
    {
        var eight = SmallKit.Microphone("eight", FirstOrderPattern.FigureEight);
        var one = PairSearch.Run(new() { Microphones = [eight] }, new());
        Assert.Empty(one.Ranked);
        Assert.Equal(Constraint.OneUnit, Assert.Single(Assert.Single(one.Rejected).Shortfalls).Constraint);
        var two = PairSearch.Run(new() { Microphones = [eight with { Count = 2 }] }, new());
        Assert.Equal([new Price(400, "EUR")], Assert.Single(two.Ranked).Cost);
    }

    [Fact]
    public static void ABodyWithTwoPatterns_ServesAsMidOrAsSide_NotAsBoth()
    {
        var switchable = SmallKit.Microphone("switchable", FirstOrderPattern.Cardioid);
        switchable = switchable with { Settings = [switchable.Settings[0] with { Label = "cardioid" }, switchable.Settings[0] with { Label = "figure-8", Pattern = FirstOrderPattern.FigureEight }] };
        var choice = PairSearch.Run(new() { Microphones = [.. SmallKit.Pair.Microphones, switchable] }, new());
        Assert.Contains(choice.Ranked, p => p.Mid.Name == "mid" && p.Side.Name == "switchable: figure-8");
        Assert.Contains(choice.Ranked, p => p.Mid.Name == "switchable: cardioid" && p.Side.Name == "side");
        Assert.DoesNotContain(choice.Ranked, p => ReferenceEquals(p.Mid.Microphone, p.Side.Microphone));
    }

    public static TheoryData<string> Failures => [.. FailureCases.Keys];

    private static Dictionary<string, (Wishes Wishes, Constraint Constraint, double? By)> FailureCases { get; } = new(StringComparer.Ordinal)
    {
        ["600 to buy of 500"] = (new() { Budget = new(500, "EUR") }, Constraint.Budget, 100),
        ["another currency"] = (new() { Budget = new(500, "GBP") }, Constraint.Currency, null),
        ["too loud for the microphone"] = (new() { Loudest = LoudestSound.FromLevel(125) }, Constraint.MicrophoneOverload, 125 + 12 - 3.0103 - 130),
        ["too loud for the input"] = (new() { Loudest = LoudestSound.FromLevel(125) }, Constraint.InputOverload, null),
        ["too quiet"] = (new() { QuietestDecibels = 20 }, Constraint.Quietest, null),
        ["too heavy"] = (new() { MostGrams = 150 }, Constraint.Weight, 50),
        ["too wide in mono"] = (new() { MonoPickup = new(150) }, Constraint.MonoPickup, 30),
        ["no ultrasound"] = (new() { Highest = new(40_000) }, Constraint.Highest, 20_000),
        ["no monitoring"] = (new() { Monitoring = true }, Constraint.Monitoring, null),
        ["too long for the cage"] = (new() { Protection = new() { Name = "cage", InnerLengthMillimetres = 130, InnerDiameterMillimetres = 100 } }, Constraint.Protection, 10),
        ["too far from the coverage"] = (new() { Coverage = new(300) }, Constraint.Coverage, null),
    };

    [Theory]
    [MemberData(nameof(Failures))]
    public static void APairThatFails_NamesTheConstraintAndByHowMuch(string name)
    {
        var (wishes, constraint, by) = FailureCases[name];
        var choice = PairSearch.Run(SmallKit.Pair, wishes);
        Assert.DoesNotContain(choice.Ranked, p => p.Mid.Name == "mid");
        var shortfall = choice.Rejected.Single(r => r.Mid.Name == "mid").Shortfalls.First(s => s.Constraint == constraint);
        Assert.NotEmpty(shortfall.Text);
        if (by is { } amount)
            Assert.Equal(amount, shortfall.By!.Value, 0.001);
    }

    [Fact]
    public static void WhatIsNotKnown_RejectsNothing_AndComesLast()
    {
        var silent = SmallKit.Microphone("no figures", FirstOrderPattern.Cardioid, price: 1, owned: true).With(s => new() { Pattern = s.Pattern });
        var choice = PairSearch.Run(SmallKit.Pair with { Microphones = [silent, .. SmallKit.Pair.Microphones] }, new() { QuietestDecibels = 40, Loudest = LoudestSound.FromLevel(90), Coverage = new(90) });
        Assert.Equal("mid", choice.Ranked[0].Mid.Name);
        var last = choice.Ranked.Last(p => p.Mid.Name == "no figures");
        Assert.Contains(last.NotKnown, t => t.Contains("noise not known, not ranked by noise", StringComparison.Ordinal));
        Assert.Contains(last.NotKnown, t => t.Contains("maximum level", StringComparison.Ordinal));
        Assert.Null(last.NoiseDecibelsA);
    }

    [Fact]
    public static void CurrenciesAreNeverAdded()
    {
        var foreign = SmallKit.Microphone("foreign", FirstOrderPattern.FigureEight) with { Price = new(300, "GBP") };
        var choice = PairSearch.Run(new() { Microphones = [.. SmallKit.Pair.Microphones, foreign] }, new());
        var mixed = choice.Ranked.Single(p => p.Mid.Name == "mid" && p.Side.Name == "foreign");
        Assert.Equal([new Price(200, "EUR"), new Price(300, "GBP")], mixed.Cost);
        Assert.NotEmpty(mixed.NotKnown);
    }

    [Fact]
    public static void AKitWithoutAFigureEight_SaysWhatIsMissing()
    {
        var choice = PairSearch.Run(new() { Microphones = [SmallKit.Microphone("mid", FirstOrderPattern.Cardioid)] }, new());
        Assert.Empty(choice.Ranked);
        Assert.Contains(choice.Remarks, r => r.Contains("figure-8", StringComparison.Ordinal));
        Assert.Contains(PairSearch.Run(Kit.Empty, new()).Remarks, r => r.Contains("kit add", StringComparison.Ordinal));
        Assert.Contains(PairSearch.Run(new() { Microphones = [SmallKit.Microphone("eight", FirstOrderPattern.FigureEight)] }, new()).Remarks, r => r.Contains("figure-8s only", StringComparison.Ordinal));
    }

    // An exhaustive check of the definition: a best trade-off is one that no other pair beats in all three.
    [Fact]
    public static void TradeOffs_AreThosePairsThatNobodyBeats()
    {
        var random = new Random(3);
        var choice = PairSearch.Run(Many(random, 12, 5), new() { Coverage = new(100) });
        foreach (var pair in choice.Ranked)
        {
            var beaten = choice.Ranked.Any(o => o != pair
                && Cost(o) <= Cost(pair) && Noise(o) <= Noise(pair) && Error(o) <= Error(pair)
                && (Cost(o) < Cost(pair) || Noise(o) < Noise(pair) || Error(o) < Error(pair)));
            Assert.Equal(!beaten, pair.IsTradeOff);
        }

        Assert.Contains(choice.Ranked, p => p.IsTradeOff);

        static decimal Cost(PairChoice p) => p.Cost.Sum(c => c.Amount);
        static double Noise(PairChoice p) => Math.Round(p.NoiseDecibelsA!.Value, 1);
        static double Error(PairChoice p) => Math.Floor(p.CoverageErrorDegrees!.Value / 5);
    }

    [Fact]
    public static void TheSameKit_GivesTheSameAnswer_AndEveryPairIsSomewhere()
        => Gen.Int[1, 1000].Sample(seed =>
        {
            var kit = Many(new(seed), 7, 3);
            Wishes wishes = new() { Coverage = new(90), Budget = new(700, "EUR"), QuietestDecibels = 35, Loudest = LoudestSound.FromLevel(100) };
            Assert.Equal(PairSearch.Run(kit, wishes).Ranked.Select(Line), PairSearch.Run(kit, wishes).Ranked.Select(Line), StringComparer.Ordinal);
            var choice = PairSearch.Run(kit, wishes);
            Assert.Equal(10 * 3, choice.Ranked.Count + choice.Rejected.Count);
            Assert.Equal(Enumerable.Range(1, choice.Ranked.Count), choice.Ranked.Select(p => p.Place));
            Assert.All(choice.Rejected, r => Assert.NotEmpty(r.Shortfalls));
            Assert.Equal(choice.Ranked.OrderBy(p => p.NotKnown.Count).ThenBy(p => p.Score).Select(p => p.Score), choice.Ranked.Select(p => p.Score));
        }, iter: 50);

    // A wider mid hears more of the room: with the side level free, the narrower mid has more side to the same coverage.
    [Fact]
    public static void TheLoweredSideOfEachPair_IsTheOneThatGivesTheCoverage()
    {
        foreach (var pair in PairSearch.Run(Many(new(1), 12, 2), new() { Coverage = new(90), Matters = [Matter.Coverage] }).Ranked)
        {
            var exact = RigSettings.ForCoverage(pair.Mid.Setting.Pattern, pair.Side.Setting.Pattern, new(90), new(15), new(1000));
            Assert.InRange(pair.SideLevel.Value - exact.SideLevel.Value, -0.2501, 0.2501);
        }
    }

    private static string Line(PairChoice p) => $"{p.Mid.Name}|{p.Side.Name}|{p.SideLevel}|{p.Recorder?.Name}|{p.Score:R}|{p.Reason}";

    private static Kit Many(Random random, int mids, int sides) => new()
    {
        Microphones =
        [
            .. Enumerable.Range(0, mids).Select(n => SmallKit.Microphone("m" + n, new FirstOrderPattern(0.2 + (0.4 * random.NextDouble())), random.Next(50, 400), 6 + (12 * random.NextDouble()))),
            .. Enumerable.Range(0, sides).Select(n => SmallKit.Microphone("s" + n, FirstOrderPattern.FigureEight, random.Next(200, 900), 8 + (10 * random.NextDouble()))),
        ],
        Recorders = [SmallKit.Recorder("R1"), SmallKit.Recorder("R2") with { EquivalentInputNoiseDecibelsU = -120, DecodesForMonitoring = true }],
    };
}
