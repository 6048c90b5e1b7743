using Athwart.Signals.Filters;
using Athwart.Signals.Shaping;
using CsCheck;

namespace Athwart.Signals.Tests.Shaping;

public sealed class SectionStageTests
{
    private const int Rate = 48000;

    public static TheoryData<PairRoles> AnyRoles => [PairRoles.Mid, PairRoles.Side, PairRoles.Both];

    [Theory]
    [MemberData(nameof(AnyRoles))]
    public void Filters_OfAnyRoles_DoNotDependOnBlocks(PairRoles roles)
    {
        StageProof.SplitsDoNotMatter(() => new LowCutStage(new(roles, 80, 30), Rate), 6000);
        StageProof.SplitsDoNotMatter(() => new HighShelfStage(new(roles, 9000, 6, 0.7), Rate));
    }

    [Theory]
    [InlineData(PairRoles.Mid), InlineData(PairRoles.Side)]
    public void Filters_OfOneRole_LeaveTheOther(PairRoles roles)
    {
        StageProof.LeavesTheOtherRole(new LowCutStage(new(roles, 80, 24), Rate), roles);
        StageProof.LeavesTheOtherRole(new BellStage(new(roles, 8000, -6, 2), Rate), roles);
    }

    [Fact]
    public void Filters_BegunAgain_Forget() => StageProof.BeginForgets(new LowCutStage(new(PairRoles.Both, 80, 24), Rate));

    [Fact]
    public void Filters_BegunTheSettlingFramesEarly_HaveSettled()
    {
        StageProof.SettlingIsEnough(() => new LowCutStage(new(PairRoles.Both, 40, 48), Rate), 100_000);
        StageProof.SettlingIsEnough(() => new BellStage(new(PairRoles.Both, 100, 18, 5), Rate), 200_000);
    }

    // Impulse through the stage, transformed by the definition, against the analogue filter.
    [Theory]
    [InlineData(100), InlineData(1000), InlineData(10_000), InlineData(21_000)]
    public void Stages_MeasuredWithAnImpulse_FollowTheirPrototypes(double hertz)
    {
        var bell = new Bell(PairRoles.Side, 12_000, 9, 0.8);
        var (mid, side) = StageProof.Gains(new BellStage(bell, Rate), hertz, Rate, 4000);
        Assert.Equal(1, mid, 1e-12);
        Assert.Equal(0, 20 * Math.Log10(side / bell.Prototype.AmplitudeRatioAt(hertz)), 0.05);
        var cut = new LowCut(PairRoles.Both, 500, 18);
        (mid, side) = StageProof.Gains(new LowCutStage(cut, Rate), hertz, Rate, 4000);
        Assert.Equal(mid, side, 1e-15);
        Assert.Equal(0, 20 * Math.Log10(mid / cut.Prototype.Aggregate(1.0, (g, p) => g * p.AmplitudeRatioAt(hertz))), 0.05);
    }

    [Theory]
    [InlineData(6), InlineData(12), InlineData(24), InlineData(36)]
    public void LowCut_AtItsCutoff_IsThreeDecibelsDownAndFallsBySlope(int slope)
    {
        var stage = new LowCutStage(new(PairRoles.Mid, 800, slope), Rate);
        Assert.Equal(-3.0103, 20 * Math.Log10(StageProof.Gains(stage, 800, Rate, 30_000).Mid), 0.02);
        var octave = StageProof.Gains(stage, 40, Rate, 60_000).Mid / StageProof.Gains(stage, 20, Rate, 60_000).Mid;
        // An order is a factor of two an octave, 6.0206 dB.
        Assert.Equal(slope / 6 * 6.0206, 20 * Math.Log10(octave), 0.02);
    }

    [Fact]
    public void Cascade_WithAndWithoutVectors_GivesTheSameBits() =>
        Gen.Select(Gen.Int[0, 9], Gen.Int[0, 9], Gen.OneOf(Gen.Int[1, 12], Gen.Int[1, 5000]), Gen.Int[1, 6]).Sample(
            (mids, sides, length, piece) =>
            {
                BiquadCoefficients[] few = [.. MatchedDesign.Sections(AnalogueSection.Bell(9000, 12, 0.7), Rate), .. MatchedDesign.Sections(AnalogueSection.LowShelf(90, -5, 0.7), Rate), .. MatchedDesign.Sections(AnalogueSection.HighShelf(15000, -12, 0.5), Rate)];
                BiquadCoefficients[] all = [.. few, .. few, .. few];
                var (mid, side) = StageProof.Noise(length, mids + (7 * sides));
                var (mid2, side2) = ((double[])mid.Clone(), (double[])side.Clone());
                var cascade = new SectionCascade(all.Take(mids), all.Take(sides));
                // The first frames in a short block, which the longest kernels cannot take.
                cascade.Process(mid.AsSpan(0, Math.Min(piece, length)), side.AsSpan(0, Math.Min(piece, length)));
                cascade.Process(mid.AsSpan(Math.Min(piece, length)), side.AsSpan(Math.Min(piece, length)));
                new SectionCascade(all.Take(mids), all.Take(sides)) { UseVectors = false }.Process(mid2, side2);
                StageProof.SameBits(mid2, mid);
                StageProof.SameBits(side2, side);
            },
            iter: 200,
            threads: 1);

    [Fact]
    public void Join_OfNeighbours_GivesTheSameBits()
    {
        IPairStage[] Stages() =>
        [
            new LowCutStage(new(PairRoles.Both, 80, 24), Rate), new BellStage(new(PairRoles.Mid, 300, 4, 1), Rate), new BellStage(new(PairRoles.Side, 12000, -4, 1), Rate),
            new TrimStage(new(PairRoles.Side, 2)), new LowShelfStage(new(PairRoles.Side, 300, 4, 0.7), Rate), new HighShelfStage(new(PairRoles.Mid, 7000, 4, 0.7), Rate),
        ];
        var (mid, side) = StageProof.Noise(9000, 4);
        var (apart, joined) = ((mid, side), (mid, side));
        var together = SectionStage.Join(Stages());
        Assert.Equal(3, together.Count);
        // As early as apart, so that a cut from the middle of a take keeps its bits.
        Assert.Equal(Stages().Sum(s => s.SettlingFrames), together.Sum(s => s.SettlingFrames));
        foreach (var stage in Stages())
            apart = StageProof.Run(stage, apart.mid, apart.side);
        foreach (var stage in together)
            joined = StageProof.Run(stage, joined.mid, joined.side);
        StageProof.SameBits(apart.mid, joined.mid);
        StageProof.SameBits(apart.side, joined.side);
    }

    [Fact]
    public void Silence_AfterSound_EndsAsNought()
    {
        double[] mid = new double[400_000], side = new double[400_000];
        mid[0] = side[0] = 1;
        var done = StageProof.Run(new BellStage(new(PairRoles.Both, 1000, 6, 1), Rate), mid, side);
        Assert.Equal((0, 0), (done.Mid[^1], done.Side[^1]));
        Assert.DoesNotContain(done.Mid, double.IsSubnormal);
    }

    [Fact]
    public void Settings_OutOfRange_AreRefusedWithTheRange()
    {
        Assert.Contains("10 to 40000 Hz", Assert.Throws<ArgumentOutOfRangeException>(() => new Bell(PairRoles.Mid, 5, 3, 1)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new Bell(PairRoles.Mid, 100, 25, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Bell(PairRoles.Mid, 100, 3, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LowCut(PairRoles.Mid, double.NaN, 12));
        Assert.Throws<ArgumentOutOfRangeException>(() => new HighCut(PairRoles.Mid, 100, 13));
        Assert.Contains("22800", Assert.Throws<ArgumentOutOfRangeException>(() => new HighCutStage(new(PairRoles.Mid, 23_000, 12), Rate)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new HighCutStage(new(PairRoles.Mid, 1000, 12), 0));
    }
}
