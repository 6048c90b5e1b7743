namespace Athwart.Quantities.Tests;

public sealed class HertzAndDegreesTests
{
    [Theory]
    [InlineData(0, "0 Hz")]
    [InlineData(80, "80 Hz")]
    [InlineData(31.5, "31.5 Hz")]
    [InlineData(999.9994, "999.999 Hz")]
    [InlineData(1000, "1 kHz")]
    [InlineData(22050, "22.05 kHz")]
    [InlineData(192000, "192 kHz")]
    public void AFrequency_IsShownInHertzOrKilohertz(double value, string expected) => Assert.Equal(expected, new Hertz(value).ToString());

    [Fact]
    public void DefaultFrequency_IsZero() => Assert.Equal("0 Hz", default(Hertz).ToString());

    [Theory]
    [InlineData(0, 0)]
    [InlineData(180, Math.PI)]
    [InlineData(-90, -Math.PI / 2)]
    [InlineData(45, Math.PI / 4)]
    public void Degrees_AndRadiansAreTheSameAngle(double degrees, double radians)
    {
        Assert.Equal(radians, new Degrees(degrees).Radians, 1e-15);
        Assert.Equal(degrees, Degrees.FromRadians(radians).Value, 1e-13);
    }

    [Fact]
    public void DefaultAngle_IsStraightAhead() => Assert.Equal("0.0°", default(Degrees).ToString());

    [Fact]
    public void AnAngle_IsShownWithOneDecimal() => Assert.Equal("131.1°", new Degrees(131.06).ToString());
}
