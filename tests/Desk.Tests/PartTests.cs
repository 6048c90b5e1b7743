using Athwart.Catalogue;
using Athwart.Desk.Parts;
using Athwart.Quantities;
using Bunit;

namespace Athwart.Desk.Tests;

/// <summary>Parts of pages, each by itself.</summary>
public sealed class PartTests : BunitContext
{
    [Theory]
    [InlineData(-3.0, "−3.0 dB")]
    [InlineData(0.0, "0.0 dB")]
    [InlineData(6.5, "+6.5 dB")]
    [InlineData(null, "mono")]
    public void TheSideLevel_SaysItsNumber(double? level, string expected)
    {
        var part = Render<SideLevel>(p => p.Add(s => s.Value, level));

        Assert.Equal(expected, part.Find(".side-level-value").TextContent);
    }

    [Fact]
    public void TurningTheSideLevel_TellsTheNewOne()
    {
        double? told = null;
        var part = Render<SideLevel>(p => p.Add(s => s.Value, 0).Add(s => s.ValueChanged, v => told = v));

        part.Find("input[type=range]").Input("-4.5");

        Assert.Equal(-4.5, told);
    }

    [Fact]
    public void ASideLevelBeyondTheEnds_IsHeldAtThem()
    {
        double? told = null;
        var part = Render<SideLevel>(p => p.Add(s => s.Value, 12).Add(s => s.ValueChanged, v => told = v));

        part.Find("button[data-key=']']").Click();

        Assert.Equal(12, told);
    }

    [Fact]
    public void LeavingMono_GoesBackToTheLevelBefore()
    {
        double? told = -3;
        var part = Render<SideLevel>(p => p.Add(s => s.Value, -3).Add(s => s.ValueChanged, v => told = v));

        part.Find("input[type=checkbox]").Change(true);
        Assert.Null(told);
        part.Render(p => p.Add(s => s.Value, (double?)null));
        part.Find("input[type=checkbox]").Change(false);

        Assert.Equal(-3, told);
    }

    [Fact]
    public void Findings_AreToldByWordAndShapeNotByColourAlone()
    {
        var part = Render<FoundBadges>(p => p.Add(b => b.Take, Take(isChecked: true, new FoundKind("flat-tops", FindingSeverity.Fault, 2))));

        var badge = part.Find(".badge");
        Assert.Contains("fault", badge.TextContent, StringComparison.Ordinal);
        Assert.Contains("■", badge.TextContent, StringComparison.Ordinal);
        Assert.Contains("flat tops ×2", badge.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void ATakeThatWasNeverChecked_IsNotCalledSound() =>
        Assert.Equal("not checked yet", Render<FoundBadges>(p => p.Add(b => b.Take, Take(isChecked: false))).Find(".badge").TextContent);

    [Theory]
    [InlineData(4.25, "4.25 s")]
    [InlineData(64.2, "1:04.2")]
    [InlineData(3723, "1:02:03")]
    public void ALength_IsSaidAsPeopleWriteIt(double seconds, string expected) => Assert.Equal(expected, Duration.Short(seconds));

    [Fact]
    public void AnEmptyNumber_IsNotKnown()
    {
        double? told = 1;
        var part = Render<NumberField>(p => p.Add(n => n.Name, "Width").Add(n => n.Value, 6).Add(n => n.Changed, v => told = v));

        part.Find("input").Change("");

        Assert.Null(told);
    }

    private static TakeSummary Take(bool isChecked, params FoundKind[] found) => new()
    {
        Id = TakeId.New(),
        Session = SessionId.New(),
        Name = "LOCK_001",
        ChannelCount = 2,
        SampleRateHertz = 96000,
        Format = "24-bit",
        Length = new(96000),
        Join = "Single",
        IsChecked = isChecked,
        Effects = 0,
        Found = found,
    };
}
