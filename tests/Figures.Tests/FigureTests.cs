using System.Xml.Linq;
using Athwart.Quantities;

namespace Athwart.Figures.Tests;

public sealed class FigureTests
{
    private static readonly FigureLabel Label = new("a", "A <title>", "What it says & means");
    private static readonly WaveformTrace Mid = new([-0.5f, -0.25f, -0.1f, 0], [0.4f, 0.3f, 0.1f, 0], [0.3f, 0.2f, 0.05f, 0]);
    private static readonly WaveformTrace Side = new([-0.1f, -0.2f, -0.1f, 0], [0.1f, 0.2f, 0.1f, 0], [0.07f, 0.1f, 0.05f, 0]);

    [Fact]
    public void Waveform_FourColumnsThreeFindings()
        => ApprovedText.Matches(WaveformFigure.Draw(Label, 4, Mid, Side,
        [
            new(1, FindingSeverity.Fault, 1, 1.2, ChannelRole.Mid),
            new(2, FindingSeverity.Caution, 0.5, 3),
            new(3, FindingSeverity.Note, 3.9, 3.9, ChannelRole.Side),
        ]));

    [Fact]
    public void Correlation_WithAGap()
        => ApprovedText.Matches(CorrelationFigure.Draw(Label, 0.5, [1, 0.5f, float.NaN, -0.25f, -1]));

    [Fact]
    public void Vector_EmptyAxes() => ApprovedText.Matches(VectorFigure.Draw(Label, 0, 0, []));

    [Fact]
    public void Spectrogram_AxesUpTo48Kilohertz()
        => ApprovedText.Matches(WithoutPictures(SpectrogramFigure.Draw(Label, 90, new(2, 2, 20, 48000, [255, 243, 0, 100]), new(2, 2, 20, 48000, [0, 0, 0, 0]))));

    [Fact]
    public void SmallOnes_BarsMarksAndSparkline()
        => ApprovedText.Matches(string.Join('\n', LevelBar.Draw(-23), LevelBar.Draw(0.4), LevelBar.Draw(double.NegativeInfinity), LevelBar.Draw(double.NaN),
            FindingMark.Draw(12, FindingSeverity.Fault), FindingMark.Draw(2, FindingSeverity.Caution), FindingMark.Draw(3, FindingSeverity.Note), Sparkline.Draw(Mid, Side)));

    [Fact]
    public void EveryFigure_IsXmlWithRoleTitleAndDescription()
    {
        string[] figures =
        [
            WaveformFigure.Draw(Label, 4, Mid, Side, []),
            CorrelationFigure.Draw(Label, 4, [1, 0]),
            VectorFigure.Draw(Label, 2, 0.5, [0, 1, 2, 255]),
            SpectrogramFigure.Draw(Label, 4, new(1, 1, 20, 24000, [9]), new(1, 1, 20, 24000, [9])),
        ];
        foreach (var figure in figures.Select(f => XDocument.Parse(f).Root!))
        {
            Assert.Equal("img", figure.Attribute("role")?.Value);
            Assert.Equal("a-title a-desc", figure.Attribute("aria-labelledby")?.Value);
            Assert.Equal("A <title>", figure.Elements().First().Value);
            Assert.Equal("What it says & means", figure.Elements().ElementAt(1).Value);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void NoLength_DrawsWithoutTicks(double seconds)
    {
        var nothing = new WaveformTrace([], [], []);
        Assert.DoesNotContain("NaN", WaveformFigure.Draw(Label, seconds, nothing, nothing, [new(1, FindingSeverity.Note, 0, 0)]), StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", CorrelationFigure.Draw(Label, seconds, []), StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", SpectrogramFigure.Draw(Label, seconds, new(0, 4, 20, 24000, []), new(0, 4, 20, 24000, [])), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.004, "0.0000 s,0.0005 s,0.0010 s,0.0015 s,0.0020 s,0.0025 s,0.0030 s,0.0035 s,0.0040 s")]
    [InlineData(4, "0.0 s,0.5 s,1.0 s,1.5 s,2.0 s,2.5 s,3.0 s,3.5 s,4.0 s")]
    [InlineData(95, "0 s,20 s,40 s,60 s,80 s")]
    [InlineData(300, "0:00 min,1:00 min,2:00 min,3:00 min,4:00 min,5:00 min")]
    [InlineData(14400, "0:00 h,0:30 h,1:00 h,1:30 h,2:00 h,2:30 h,3:00 h,3:30 h,4:00 h")]
    public void TimeAxis_HasAtMostNineRoundSteps(double seconds, string labels)
    {
        var scale = new TimeScale(seconds);
        Assert.Equal(labels, string.Join(',', scale.Ticks().Select(scale.Label)));
    }

    [Fact]
    public void FindingsAtOnePlace_DoNotCoverEachOther()
    {
        var figure = WaveformFigure.Draw(Label, 10, Mid, Side, Enumerable.Range(1, 5).Select(n => new TimeMark(n, FindingSeverity.Note, 9.99, 10)).ToList());
        var circles = XDocument.Parse(figure).Descendants().Where(e => e.Name.LocalName == "circle").Select(e => (e.Attribute("cx")!.Value, e.Attribute("cy")!.Value)).ToList();
        Assert.Equal(5, circles.Count);
        Assert.Equal(5, circles.Distinct().Count());
    }

    [Theory]
    [InlineData("<a href=\"x\">&'", "&lt;a href=&quot;x&quot;&gt;&amp;&#39;")]
    [InlineData("שער\u0007", "שער\ufffd")]
    public void Text_CannotBreakOut(string text, string escaped) => Assert.Equal(escaped, Markup.Escape(text));

    [Fact]
    public void HalfACharacter_BecomesAReplacement() => Assert.Equal("a\ufffdb", Markup.Escape("a\ud800b"));

    [Theory]
    [InlineData(-0.04, 1, "0.0")]
    [InlineData(-12.25, 1, "−12.3")]
    [InlineData(double.NegativeInfinity, 1, "−∞")]
    [InlineData(double.NaN, 1, "?")]
    public void Numbers_CarryATrueMinus(double value, int decimals, string text) => Assert.Equal(text, Markup.Readable(value, decimals));

    private static string WithoutPictures(string svg)
    {
        // The deflate of the runtime may pack the same pixels otherwise; PictureTests read them.
        var root = XDocument.Parse(svg).Root!;
        foreach (var picture in root.Elements().Where(e => e.Name.LocalName == "image"))
            picture.SetAttributeValue("href", "picture");
        return root.ToString();
    }
}
