using CsCheck;

namespace Athwart.Quantities.Tests;

public sealed class DecibelsTests
{
    // Elementary: 20·lg 2 = 6.0206, 10·lg 2 = 3.0103, and the 3 dB of an equal-power split is 1/√2 exactly by 10·lg 0.5.
    [Theory]
    [InlineData(0, 1)]
    [InlineData(20, 10)]
    [InlineData(-20, 0.1)]
    [InlineData(6.020599913279624, 2)]
    [InlineData(-6.020599913279624, 0.5)]
    [InlineData(-3.010299956639812, 0.7071067811865476)]
    public void AmplitudeRatio_IsTenToTheTwentieth(double decibels, double ratio)
    {
        Assert.Equal(ratio, new Decibels(decibels).AmplitudeRatio, 1e-14 * ratio * 10);
        Assert.Equal(decibels, Decibels.FromAmplitudeRatio(ratio).Value, 1e-12);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(10, 10)]
    [InlineData(3.010299956639812, 2)]
    [InlineData(-30, 0.001)]
    public void PowerRatio_IsTenToTheTenth(double decibels, double ratio)
    {
        Assert.Equal(ratio, new Decibels(decibels).PowerRatio, 1e-13 * ratio);
        Assert.Equal(decibels, Decibels.FromPowerRatio(ratio).Value, 1e-12);
    }

    [Fact]
    public void PowerRatio_IsTheSquareOfTheAmplitudeRatio() => Gen.Double[-120, 60].Sample(value =>
    {
        var gain = new Decibels(value);
        Assert.Equal(1, gain.AmplitudeRatio * gain.AmplitudeRatio / gain.PowerRatio, 1e-12);
    });

    [Fact]
    public void AmplitudeRatio_ComesBack() => Gen.Double[-150, 60].Sample(value =>
        Assert.Equal(value, Decibels.FromAmplitudeRatio(new Decibels(value).AmplitudeRatio).Value, 1e-11));

    [Fact]
    public void Silence_IsTheRatioZero()
    {
        Assert.Equal(0, Decibels.Silence.AmplitudeRatio);
        Assert.Equal(0, Decibels.Silence.PowerRatio);
        Assert.Equal(Decibels.Silence, Decibels.FromAmplitudeRatio(0));
        Assert.Equal(Decibels.Silence, Decibels.FromPowerRatio(0));
    }

    [Fact]
    public void Default_IsUnity()
    {
        Assert.Equal(Decibels.Unity, default);
        Assert.Equal(1, default(Decibels).AmplitudeRatio);
    }

    [Fact]
    public void TheSignOfAnAmplitudeRatio_IsIgnored() => Assert.Equal(Decibels.FromAmplitudeRatio(0.5), Decibels.FromAmplitudeRatio(-0.5));

    [Fact]
    public void ANegativePowerRatio_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => Decibels.FromPowerRatio(-1));

    [Fact]
    public void SixAndSixDecibels_AreTwelve() => Assert.Equal(new Decibels(12), new Decibels(6) + new Decibels(6));

    [Fact]
    public void TheOppositeGain_UndoesAGain() => Assert.Equal(Decibels.Unity, new Decibels(4.5) + -new Decibels(4.5));

    [Theory]
    [InlineData("-3", -3)]
    [InlineData("−3", -3)]
    [InlineData("+1.5 dB", 1.5)]
    [InlineData("1.5dB", 1.5)]
    [InlineData("0", 0)]
    [InlineData("  -12.25 DB ", -12.25)]
    [InlineData("1e1", 10)]
    [InlineData("-inf", double.NegativeInfinity)]
    [InlineData("-INF dB", double.NegativeInfinity)]
    [InlineData("−inf", double.NegativeInfinity)]
    public void Text_IsReadAsAGain(string text, double expected)
    {
        Assert.True(Decibels.TryParse(text, out var gain));
        Assert.Equal(expected, gain.Value);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("dB")]
    [InlineData("loud")]
    [InlineData("inf")]
    [InlineData("+inf")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("1e999")]
    [InlineData("-3 dBFS")]
    [InlineData("-3,5")]
    [InlineData("1,000")]
    [InlineData("- 3")]
    [InlineData("3 dB dB")]
    public void OtherText_IsRefusedAndLeavesUnity(string? text)
    {
        Assert.False(Decibels.TryParse(text, out var gain));
        Assert.Equal(Decibels.Unity, gain);
    }

    [Theory]
    [InlineData(0, "0.0 dB")]
    [InlineData(1.5, "+1.5 dB")]
    [InlineData(-3, "−3.0 dB")]
    [InlineData(-0.04, "0.0 dB")]
    [InlineData(0.05, "+0.1 dB")]
    [InlineData(-0.05, "−0.1 dB")]
    [InlineData(1234.56, "+1234.6 dB")]
    [InlineData(double.NegativeInfinity, "−∞ dB")]
    [InlineData(double.PositiveInfinity, "+∞ dB")]
    [InlineData(double.NaN, "? dB")]
    public void AGain_IsShownWithItsSignAndOneDecimal(double value, string expected) => Assert.Equal(expected, new Decibels(value).ToString());

    [Fact]
    public void WhatIsShown_CanBeReadAgain() => Gen.Int[-1200, 600].Sample(tenths =>
    {
        var gain = new Decibels(tenths / 10.0);
        Assert.True(Decibels.TryParse(gain.ToString(), out var again));
        Assert.Equal(gain, again);
    });
}
