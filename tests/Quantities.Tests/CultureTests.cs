using System.Globalization;

namespace Athwart.Quantities.Tests;

/// <summary>Numbers are shown and read the same way on every machine, whatever its language.</summary>
public sealed class CultureTests
{
    [Fact]
    public void ACommaCulture_ChangesNothing()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CommaCulture();
            Assert.Equal("1,5", 1.5.ToString(CultureInfo.CurrentCulture)); // The culture really is in force.

            Assert.Equal("+1.5 dB", new Decibels(1.5).ToString());
            Assert.Equal("−18.5 dBFS", new DecibelsFullScale(-18.5).ToString());
            Assert.Equal("−23.5 LUFS", new Loudness(-23.5).ToString());
            Assert.Equal("22.05 kHz", new Hertz(22050).ToString());
            Assert.Equal("1.5°", new Degrees(1.5).ToString());
            Assert.Equal("-1", new FrameCount(-1).ToString());
            Assert.Equal("size 1.5 dB", new Evidence("size", 1.5, "dB").ToString());
            Assert.True(Decibels.TryParse("-1.5", out var gain));
            Assert.Equal(-1.5, gain.Value);
            Assert.False(Decibels.TryParse("-1,5", out _));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    // Made by hand: the build has no named cultures (InvariantGlobalization).
    private static CultureInfo CommaCulture()
    {
        var culture = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        culture.NumberFormat.NumberDecimalSeparator = ",";
        culture.NumberFormat.NumberGroupSeparator = ".";
        culture.NumberFormat.NegativeSign = "~";
        return culture;
    }
}
