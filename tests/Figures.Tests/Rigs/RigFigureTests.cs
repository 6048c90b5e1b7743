using System.Xml.Linq;
using Athwart.Figures.Rigs;
using CsCheck;

namespace Athwart.Figures.Tests.Rigs;

public static class RigFigureTests
{
    private static FigureLabel Label { get; } = new("gate", "Lock <gate> & \"bridge\"", "Coverage 90 degrees.");

    public static TheoryData<string> Names => [.. Pictures.Keys];

    private static Dictionary<string, string> Pictures { get; } = new(StringComparer.Ordinal)
    {
        ["polar"] = PolarFigure.Draw(Label, Cardioid(0.7)),
        ["polar without curves"] = PolarFigure.Draw(Label, []),
        ["polar of silence"] = PolarFigure.Draw(Label, [new("mid", "mid", _ => 0)]),
        ["difference"] = LevelDifferenceFigure.Draw(Label, Difference(0.7), 15, 105),
        ["difference never"] = LevelDifferenceFigure.Draw(Label, _ => 0, 15, null),
        ["difference without ends"] = LevelDifferenceFigure.Draw(Label, a => a > 60 ? double.PositiveInfinity : a < -60 ? double.NegativeInfinity : a is > -5 and < 5 ? null : a / 4, 18, 120),
        ["wedge"] = CoverageWedgeFigure.Draw(Label, 105, new(4, -4, 12, false, true)),
        ["wedge with a path"] = CoverageWedgeFigure.Draw(Label, 128, new(20, -20, 12, true, false)),
        ["wedge never"] = CoverageWedgeFigure.Draw(Label, null, null),
        ["wedge all around"] = CoverageWedgeFigure.Draw(Label, 300, new(0.5, -0.5, 1, false, true)),
        ["side level"] = SideLevelFigure.Draw(Label, l => 100 - (6 * l), l => l < -6 ? null : 110 - (6 * l), l => -l / 13, -3),
        ["side level of nothing"] = SideLevelFigure.Draw(Label, _ => null, _ => null, _ => null, double.NegativeInfinity),
        ["noise"] = NoiseBudgetFigure.Draw(Label, [new("mid microphone", 16, "mid"), new("side microphone", null, "side"), new("side input", double.NegativeInfinity, "side"), new("left and right", 19.2, "total")], 45),
        ["noise of nothing"] = NoiseBudgetFigure.Draw(Label, [], null),
        ["gain"] = GainLadderFigure.Draw(Label, [new("Mid", "24 dB", "mid", -95, -66.7, -7.8, 18.3), new("Side", "not known", "side", null, null, null, null)]),
        ["gain of nothing"] = GainLadderFigure.Draw(Label, []),
        ["trade-off"] = TradeOffFigure.Draw(Label, [new(1, 520, 19.2, true), new(2, 520, 19.9, false), new(3, 740, 16.8, true), new(5, 430, 23.6, true), new(40, 60, 30, false)], "EUR"),
        ["trade-off of nothing"] = TradeOffFigure.Draw(Label, [], ""),
    };

    [Theory]
    [MemberData(nameof(Names))]
    public static void APicture_IsWellFormed_SaysWhatItIs_AndHasNoNumberThatIsNone(string name)
    {
        var svg = Pictures[name];
        var root = XDocument.Parse(svg).Root!;
        Assert.Equal(Label.Title, root.Elements().First(e => e.Name.LocalName == "title").Value);
        Assert.Equal(Label.Description, root.Elements().First(e => e.Name.LocalName == "desc").Value);
        Assert.Equal("img", root.Attribute("role")!.Value);
        foreach (var attribute in root.DescendantsAndSelf().SelectMany(e => e.Attributes()))
            Assert.DoesNotMatch("NaN|Infinity|∞|#[0-9a-fA-F]{3}", attribute.Value);
        Labels.DoNotOverlap(svg);
        Labels.AreInside(svg);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public static void APicture_IsTheOneThatWasLookedAt(string name) => ApprovedText.Matches(Pictures[name], "Rig " + name);

    [Fact]
    public static void WhatIsNotKnown_IsSaid()
    {
        Assert.Contains("not known", Pictures["noise"], StringComparison.Ordinal);
        Assert.Contains("quietest sound not known", Pictures["gain"], StringComparison.Ordinal);
        Assert.Contains("never reached", Pictures["difference never"], StringComparison.Ordinal);
        Assert.Contains("nothing gets fully to one side", Pictures["wedge never"], StringComparison.Ordinal);
        Assert.Contains("no pair", Pictures["trade-off of nothing"], StringComparison.Ordinal);
    }

    [Fact]
    public static void WedgesOfAnyCoverageAndSubject_KeepTheirLabelsApartAndInside() =>
        Gen.Select(Gen.Int[15, 350], Gen.Double[0.2, 4000], Gen.Double[0.5, 900], Gen.Bool).Sample((coverage, width, distance, passes) =>
        {
            var svg = CoverageWedgeFigure.Draw(Label, coverage, new(width / 2, -width / 2, distance, passes, true));
            Labels.DoNotOverlap(svg);
            Labels.AreInside(svg);
        }, iter: 400);

    [Fact]
    public static void LevelDifferencesOfAnyCoverage_KeepTheirLabelsApart() =>
        Gen.Select(Gen.Double[0.2, 2], Gen.Int[3, 29], Gen.Int[20, 355]).Sample((side, threshold, coverage) => Labels.DoNotOverlap(LevelDifferenceFigure.Draw(Label, Difference(side), threshold, coverage)), iter: 100);

    [Fact]
    public static void GainLaddersOfAnyLevels_KeepTheirLabelsApart() =>
        Gen.Select(Gen.Double[-130, -60], Gen.Double[-110, -20], Gen.Double[-40, 20], Gen.Double[-30, 60]).Sample((noise, quietest, loudest, maximum) =>
        {
            var svg = GainLadderFigure.Draw(Label, [new("Mid", "24 dB", "mid", noise, quietest, loudest, maximum), new("Side", "32 dB", "side", quietest, noise, maximum, loudest)]);
            Labels.DoNotOverlap(svg);
            Labels.AreInside(svg, 20);
        }, iter: 300);

    [Fact]
    public static void SideLevelsAndNoiseOfAnySize_KeepTheirLabelsApart() =>
        Gen.Select(Gen.Double[-12, 12], Gen.Double[-30, 60], Gen.Double[-30, 90]).Sample((level, noise, quietest) =>
        {
            Labels.DoNotOverlap(SideLevelFigure.Draw(Label, l => 100 - (6 * l), l => 110 - (6 * l), l => -l / 13, level));
            Labels.DoNotOverlap(NoiseBudgetFigure.Draw(Label, [new("mid microphone", noise, "mid"), new("left and right", noise + 3, "total")], quietest));
        }, iter: 200);

    private static IReadOnlyList<PolarCurve> Cardioid(double side) =>
    [
        new("mid", "mid", a => Mid(a)),
        new("side", "side", a => side * Math.Sin(a * Math.PI / 180)),
        new("left", "left", a => Mid(a) + (side * Math.Sin(a * Math.PI / 180))),
        new("right", "right", a => Mid(a) - (side * Math.Sin(a * Math.PI / 180))),
    ];

    private static Func<double, double?> Difference(double side) => a =>
    {
        var (m, s) = (Mid(a), side * Math.Sin(a * Math.PI / 180));
        return 20 * Math.Log10(Math.Abs((m + s) / (m - s)));
    };

    private static double Mid(double azimuth) => 0.5 + (0.5 * Math.Cos(azimuth * Math.PI / 180));
}
