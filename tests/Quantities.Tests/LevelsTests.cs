namespace Athwart.Quantities.Tests;

public sealed class LevelsTests
{
    [Theory]
    [InlineData(1, 0)]
    [InlineData(0.1, -20)]
    [InlineData(-0.5, -6.020599913279624)]
    [InlineData(10, 20)]
    public void AnAmplitude_HasALevelAgainstFullScale(double amplitude, double level)
    {
        Assert.Equal(level, DecibelsFullScale.FromAmplitude(amplitude).Value, 1e-12);
        Assert.Equal(Math.Abs(amplitude), new DecibelsFullScale(level).Amplitude, 1e-12);
    }

    // The reference of a mean square is a constant 1.0, so a full-scale sine (mean square 0.5) reads 10·lg 0.5 = −3.01 dBFS.
    [Theory]
    [InlineData(1, 0)]
    [InlineData(0.5, -3.010299956639812)]
    [InlineData(0.01, -20)]
    public void AMeanSquare_HasALevelAgainstFullScale(double meanSquare, double level) =>
        Assert.Equal(level, DecibelsFullScale.FromMeanSquare(meanSquare).Value, 1e-12);

    [Fact]
    public void NoSound_IsSilence()
    {
        Assert.Equal(DecibelsFullScale.Silence, DecibelsFullScale.FromAmplitude(0));
        Assert.Equal(DecibelsFullScale.Silence, DecibelsFullScale.FromAmplitude(-0.0));
        Assert.Equal(DecibelsFullScale.Silence, DecibelsFullScale.FromMeanSquare(0));
        Assert.Equal(0, DecibelsFullScale.Silence.Amplitude);
    }

    [Fact]
    public void DefaultLevel_IsFullScale() => Assert.Equal(1, default(DecibelsFullScale).Amplitude);

    [Theory]
    [InlineData(0, "0.0 dBFS")]
    [InlineData(-18, "−18.0 dBFS")]
    [InlineData(2.25, "2.3 dBFS")]
    [InlineData(double.NegativeInfinity, "−∞ dBFS")]
    [InlineData(double.NaN, "? dBFS")]
    public void ALevel_IsShownWithUnitAndWithoutAPlus(double value, string expected) => Assert.Equal(expected, new DecibelsFullScale(value).ToString());

    // EBU Tech 3341 (2023) section 2: at most one decimal, the unit always shown. See docs/sources.md#tech3341
    [Theory]
    [InlineData(-23, "−23.0 LUFS")]
    [InlineData(-22.95, "−23.0 LUFS")]
    [InlineData(-22.94, "−22.9 LUFS")]
    [InlineData(double.NegativeInfinity, "−∞ LUFS")]
    public void ALoudness_IsShownWithOneDecimalAndItsUnit(double value, string expected) => Assert.Equal(expected, new Loudness(value).ToString());
}
