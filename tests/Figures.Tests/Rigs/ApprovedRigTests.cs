using Athwart.Figures.Rigs;

namespace Athwart.Figures.Tests.Rigs;

/// <summary>The pictures a person looked at, by day, by night and in grey.</summary>
public sealed class ApprovedRigTests
{
    [Fact]
    public void Wedge_BoatPasses40MetresAt12() => Approved(CoverageWedgeFigure.Draw(RigSamples.Label, 118, RigSamples.Boat));

    [Fact]
    public void Wedge_250DegreesNeedsRoomBehindTheRig() => Approved(CoverageWedgeFigure.Draw(RigSamples.Label, 250, RigSamples.Gate));

    [Fact]
    public void Wedge_FarWiderThanDistant_IsCutAtTheSides() => Approved(CoverageWedgeFigure.Draw(RigSamples.Label, 90, new(1000, -1000, 1, false, true)));

    [Fact]
    public void Polar_CardioidWithEqualSide() => Approved(PolarFigure.Draw(RigSamples.Label, RigSamples.Polar(0.5, 0)));

    [Fact]
    public void Difference_Cardioid_EqualSide_At15Decibels()
        => Approved(LevelDifferenceFigure.Draw(RigSamples.Label, a => RigSamples.Difference(0.5, 0, a), 15, RigSamples.Coverage(0, 15)));

    [Fact]
    public void SideLevel_Minus3Chosen()
        => Approved(SideLevelFigure.Draw(RigSamples.Label, l => RigSamples.Coverage(l, 15), l => RigSamples.Coverage(l, 18), RigSamples.Correlation, -3));

    [Fact]
    public void Noise_OneUnknownOneSilent() => Approved(NoiseBudgetFigure.Draw(RigSamples.Label, RigSamples.Noise, 35));

    [Fact]
    public void Gains_MaximumOfTheSideNotKnown() => Approved(GainLadderFigure.Draw(RigSamples.Label, RigSamples.Gains));

    [Fact]
    public void TradeOff_ThreeBestOfFive() => Approved(TradeOffFigure.Draw(RigSamples.Label, RigSamples.Pairs, "EUR"));

    private static void Approved(string svg, [System.Runtime.CompilerServices.CallerMemberName] string test = "")
    {
        Assert.Empty(SvgReading.Faults(svg));
        ApprovedText.Matches(svg, test);
    }
}
