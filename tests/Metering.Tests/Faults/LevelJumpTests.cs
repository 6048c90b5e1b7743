using Athwart.Metering.Faults;
using Athwart.Metering.Tests.Support;
using Athwart.Quantities;
using static Athwart.Metering.Tests.Faults.FaultSignals;

namespace Athwart.Metering.Tests.Faults;

/// <summary>A gain is flat over frequency, at once, and one channel's alone; sound is not. No published source.</summary>
public class LevelJumpTests
{
    private const int Count = 10 * Tones.Rate, At = 200_000;

    [Theory]
    [InlineData(ChannelRole.Side, 3.5)]
    [InlineData(ChannelRole.Side, -9)]
    [InlineData(ChannelRole.Mid, -5)]
    public void AGainThatJumpsUnderAVoiceOfClaps_IsFoundInItsRoleWithin0_3Decibels(ChannelRole role, double decibels)
    {
        var (mid, side) = (Ambience(Count, 0.004, 301), Ambience(Count, 0.003, 302));
        for (var i = 0; i < 12; i++)
        {
            AddClap(mid, 20_000 + (37_000 * i), 0.2, 0.03, 310 + i);
            AddClap(side, 20_000 + (37_000 * i), 0.12, 0.03, 310 + i);
        }

        Amplify(role == ChannelRole.Mid ? mid : side, At, Count, decibels);
        var finding = Assert.Single(Find(FaultKinds.LevelJump, mid, side));
        Assert.Equal((role, FindingSeverity.Caution), (finding.Role, finding.Severity));
        Assert.Equal(decibels, finding.Size!.Value, tolerance: 0.3);
        Assert.InRange(finding.Range!.Value.From.Value, At - 960, At + 960);
    }

    [Fact]
    public void AGainThatIsPutBack_EndsThere()
    {
        var (mid, side) = (Ambience(Count, 0.004, 321), Ambience(Count, 0.003, 322));
        Amplify(side, At, At + 96_000, -6);
        var findings = Find(FaultKinds.LevelJump, mid, side);
        Assert.Equal(2, findings.Count);
        Assert.InRange(findings[0].Range!.Value.To.Value, At + 96_000 - 960, At + 96_000 + 960);
    }

    [Fact]
    public void AGainThatJumpsInBoth_IsTheSound()
    {
        var (mid, side) = (Ambience(Count, 0.004, 331), Ambience(Count, 0.003, 332));
        Amplify(mid, At, Count, 6);
        Amplify(side, At, Count, 6);
        Assert.Empty(Find(FaultKinds.LevelJump, mid, side));
    }

    [Fact]
    public void ABandThatBeginsInOneRole_IsTheSound()
    {
        var (mid, side) = (Ambience(Count, 0.004, 341), Ambience(Count, 0.003, 342));
        // A jet of steam: white, where the place falls 6 dB an octave.
        var random = new Random(343);
        for (var i = At; i < Count; i++)
            side[i] += (float)(0.004 * ((2 * random.NextDouble()) - 1));
        Assert.Empty(Find(FaultKinds.LevelJump, mid, side));
    }

    private static void Amplify(float[] samples, int from, int to, double decibels)
    {
        for (var i = from; i < to; i++)
            samples[i] *= (float)Math.Pow(10, decibels / 20);
    }
}
