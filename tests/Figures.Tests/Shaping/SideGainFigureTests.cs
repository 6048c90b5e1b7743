using System.Globalization;
using System.Xml.Linq;
using Athwart.Figures.Shaping;

namespace Athwart.Figures.Tests.Shaping;

public sealed class SideGainFigureTests
{
    private static readonly FigureLabel Label = new("guard", "Gain of the mono guard", "It takes 12 dB away at most.");

    [Fact]
    public void HalfTheAmplitude_IsDrawnHalfWayDownAScaleOf12Decibels()
    {
        var ys = Trace(SideGainFigure.Draw(Label, 10, [1, Math.Pow(10, -0.3), Math.Pow(10, -0.6)])).Select(p => p.Y).ToArray();

        // The plot is 104 high and begins at 24.
        Assert.Equal([24, 76, 128], ys, (a, b) => Math.Abs(a - b) < 0.06);
    }

    [Fact]
    public void SilenceAndARaisedSide_StayWithinThePlot()
    {
        foreach (var gains in new double[][] { [0, 1], [2, 4, 0.001], [1], [1e-9, 0] })
        {
            var svg = SideGainFigure.Draw(Label, 3, gains);
            Assert.All(Trace(svg), p => Assert.True(p.Y is >= 23.9 and <= 128.1 && p.X is >= 66 and <= 860, svg));
        }
    }

    [Fact]
    public void TheLowestGain_IsSaidInWords()
    {
        Assert.Contains("lowest −12 dB", SideGainFigure.Draw(Label, 3, [1, Math.Pow(10, -0.6)]), StringComparison.Ordinal);
        Assert.Contains("lowest −48 dB or less", SideGainFigure.Draw(Label, 3, [1, 0]), StringComparison.Ordinal);
        Assert.Contains("lowest 0 dB", SideGainFigure.Draw(Label, 3, [1, 1]), StringComparison.Ordinal);
    }

    [Fact]
    public void NoColumns_AreRefused() => Assert.Throws<ArgumentException>(() => SideGainFigure.Draw(Label, 3, []));

    private static List<(double X, double Y)> Trace(string svg)
    {
        var path = XDocument.Parse(svg).Descendants().Single(e => e.Name.LocalName == "path" && e.Attribute("class")!.Value == "trace").Attribute("d")!.Value;
        return [.. path.Split('M', 'L').Skip(1).Select(point => point.Split(' ')).Select(xy => (double.Parse(xy[0], CultureInfo.InvariantCulture), double.Parse(xy[1], CultureInfo.InvariantCulture)))];
    }
}
