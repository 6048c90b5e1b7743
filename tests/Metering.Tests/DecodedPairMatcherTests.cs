using static Athwart.Metering.Tests.Support.Tones;

namespace Athwart.Metering.Tests;

public class DecodedPairMatcherTests
{
    internal static readonly float[] Mid = Noise(96_000, 0.2, 1);
    internal static readonly float[] Side = Noise(96_000, 0.1, 2).Plus(Mid.Times(0.2));

    [Theory]
    [InlineData(0, 0)]
    [InlineData(-3.5, 0)]
    [InlineData(-12, -6.02)]
    [InlineData(6, -3)]
    [InlineData(-40, 0)]
    public void ANoiselessDecode_IsRecognised_AndTheSideLevelEstimatedTo0_05Decibels(double sideLevel, double midGain)
    {
        var (left, right) = Decode(sideLevel, midGain);
        var match = Match(Mid, Side, left, right);
        Assert.Equal(DecodedPairVerdict.Decode, match.Verdict);
        Assert.Equal(sideLevel, match.SideLevel.Value, 0.05);
        Assert.Equal(midGain, match.MidGain.Value, 0.01);
        Assert.Equal((false, false, false), (match.SideInverted, match.RolesSwapped, match.MidInverted));
        Assert.InRange(match.Residual.Value, double.NegativeInfinity, -120);
    }

    [Fact]
    public void A16BitDecode_IsRecognised_WithItsRoundingAsResidual()
    {
        var (left, right) = Decode(-3, 0);
        var match = Match(Mid.Rounded(16), Side.Rounded(16), left.Rounded(16), right.Rounded(16));
        Assert.Equal(DecodedPairVerdict.Decode, match.Verdict);
        Assert.Equal(-3, match.SideLevel.Value, 0.05);
        Assert.InRange(match.Residual.Value, -100, -70);
    }

    [Fact]
    public void LeftAndRightExchanged_ReadAsAnInvertedSide()
    {
        var (left, right) = Decode(-3, 0);
        var match = Match(Mid, Side, right, left);
        Assert.Equal((DecodedPairVerdict.Decode, true), (match.Verdict, match.SideInverted));
        Assert.Equal(-3, match.SideLevel.Value, 0.05);
    }

    [Fact]
    public void MidAndSideExchanged_ReadAsSwappedRoles()
    {
        var (left, right) = Decode(-3, 0);
        var match = Match(Side, Mid, left, right);
        Assert.Equal((DecodedPairVerdict.Decode, true), (match.Verdict, match.RolesSwapped));
        Assert.Equal(-3, match.SideLevel.Value, 0.05);
    }

    [Fact]
    public void AMonoDecode_HasASideLevelOfMinusInfinity()
    {
        var match = Match(Mid, Side, Mid, Mid);
        Assert.Equal((DecodedPairVerdict.Decode, double.NegativeInfinity), (match.Verdict, match.SideLevel.Value));
    }

    [Fact]
    public void PlainCopiesOfTheChannels_AreAnotherMatrix() =>
        Assert.Equal(DecodedPairVerdict.OtherMatrix, Match(Mid, Side, Mid, Side).Verdict);

    [Fact]
    public void AnotherRecording_IsUnrelated()
    {
        Assert.Equal(DecodedPairVerdict.Unrelated, Match(Mid, Side, Noise(96_000, 0.2, 3), Noise(96_000, 0.2, 4)).Verdict);
        // One frame late.
        var (left, right) = Decode(-3, 0);
        Assert.Equal(DecodedPairVerdict.Unrelated, Match(Mid[1..], Side[1..], left[..^1], right[..^1]).Verdict);
    }

    [Fact]
    public void ADecodeSpoiltForASecond_OrWithNoiseAtMinus30Decibels_IsNotClaimed()
    {
        var (left, right) = Decode(-3, 0);
        Noise(400, 0.2, 5).CopyTo(left, 60_000);
        Assert.Equal(DecodedPairVerdict.Unrelated, Match(Mid, Side, left, right).Verdict);
        (left, right) = Decode(-3, 0);
        Assert.Equal(DecodedPairVerdict.Unrelated, Match(Mid, Side, left.Plus(Noise(96_000, 0.006, 6)), right.Plus(Noise(96_000, 0.006, 7))).Verdict);
    }

    [Fact]
    public void ASideLevelChangedOnTheWay_IsNotClaimed()
    {
        var ((l1, r1), (l2, r2)) = (Decode(-3, 0), Decode(0, 0));
        Assert.Equal(DecodedPairVerdict.Unrelated, Match(Mid, Side, [.. l1[..48_000], .. l2[48_000..]], [.. r1[..48_000], .. r2[48_000..]]).Verdict);
    }

    [Fact]
    public void SilenceOrASideThatCopiesTheMid_IsUndecided()
    {
        var nothing = new float[96_000];
        Assert.Equal(DecodedPairVerdict.Undecided, Match(Mid, Side, nothing, nothing).Verdict);
        Assert.Equal(DecodedPairVerdict.Undecided, Match(nothing, nothing, Mid, Mid).Verdict);
        Assert.Equal(DecodedPairVerdict.Undecided, Match(Mid, Mid.Times(0.5), Mid, Mid).Verdict);
        Assert.Equal(DecodedPairVerdict.Undecided, new DecodedPairMatcher(48_000).Complete().Verdict);
    }

    private static (float[] Left, float[] Right) Decode(double sideLevel, double midGain)
    {
        var (t, g) = (Math.Pow(10, midGain / 20), Math.Pow(10, sideLevel / 20));
        return (Mid.Times(t).Plus(Side.Times(t * g)), Mid.Times(t).Plus(Side.Times(-t * g)));
    }

    private static DecodedPairMatch Match(float[] mid, float[] side, float[] left, float[] right)
    {
        var matcher = new DecodedPairMatcher(48_000);
        for (var at = 0; at < mid.Length; at += 7_000)
        {
            var take = Math.Min(7_000, mid.Length - at);
            matcher.Add(mid.AsSpan(at, take), side.AsSpan(at, take), left.AsSpan(at, take), right.AsSpan(at, take));
        }

        return matcher.Complete();
    }
}
