using System.Xml.Linq;
using Athwart.Figures.Rigs;

namespace Athwart.Figures.Tests;

public static class DirectionFigureTests
{
    private static FigureLabel Label { get; } = new("trail", "Direction", "From 40° left to 40° right.");

    [Fact]
    public static void ATrail_IsTheOneThatWasLookedAt()
    {
        float[] azimuth = [40, 20, float.NaN, -20, -40, 170], spread = [2, 8, float.NaN, 3, 1, 5], share = [0.9f, 0.4f, float.NaN, 0.8f, 1, 0.6f];
        ApprovedText.Matches(DirectionFigure.Draw(Label, 6, azimuth, spread, share));
    }

    [Fact]
    public static void NothingToShow_IsAnEmptyFrame_WithItsWords()
    {
        var svg = XDocument.Parse(DirectionFigure.Draw(Label, 0, [], [], [])).Root!;
        Assert.Equal("Direction", svg.Elements().First(e => e.Name.LocalName == "title").Value);
        Assert.DoesNotContain("NaN", svg.ToString(), StringComparison.Ordinal);
    }

    // Found by a second look: nothing to buy for any pair made an axis of 0 0 0 1 1 1.
    [Fact]
    public static void WhenNothingHasToBeBought_TheAxisStillCounts()
    {
        var svg = XDocument.Parse(TradeOffFigure.Draw(Label, [new(8, 0, 14, true), new(9, 0, 16, false)], "EUR"));
        var ticks = svg.Descendants().Where(e => e.Name.LocalName == "text" && e.Attribute("text-anchor")!.Value == "middle").Select(e => e.Value).ToList();
        Assert.Equal(ticks.Count, ticks.Distinct(StringComparer.Ordinal).Count());
    }
}
