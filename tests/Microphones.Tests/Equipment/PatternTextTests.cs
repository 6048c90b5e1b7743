using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Microphones.Tests.Equipment;

public sealed class PatternTextTests
{
    [Fact]
    public void EveryNamedPattern_IsWrittenByItsName()
    {
        foreach (var pattern in FirstOrderPattern.Named)
        {
            Assert.Equal(pattern.Name, PatternText.Format(pattern));
            Assert.True(PatternText.TryParse(pattern.Name, out var read, out _));
            Assert.Equal(pattern, read);
        }
    }

    [Fact]
    public void AnyOmniShare_ComesBackToTheBit() => Gen.Double[0, 1].Sample(share =>
        PatternText.TryParse(PatternText.Format(new FirstOrderPattern(share)), out var read, out _) && ((FirstOrderPattern)read).OmniShare == share);

    [Fact]
    public void AMeasuredTable_ComesBackToTheBit() => Gen.Select(Gen.Double[1, 20_000], Gen.Double[1, 179], Gen.Double[-60, 10], Gen.Bool, Gen.Bool).Sample((frequency, angle, level, opposite, behind) =>
    {
        var table = new TabulatedPattern(
            [
                new(new(frequency), new(0), new(0)), new(new(frequency), new(angle), new(level), opposite), new(new(frequency), new(180), Decibels.Silence),
                new(new(frequency + 1), new(0), new(0)), new(new(frequency + 1), new(180), new(level), opposite),
            ],
            behind ? LobeBehind.Opposite : LobeBehind.AsMarked);
        var text = PatternText.Format(table);
        Assert.DoesNotContain(',', text);
        Assert.True(PatternText.TryParse(text, out var read, out var rule), rule);
        Assert.Equal(table.Points, ((TabulatedPattern)read).Points);
        Assert.Equal(table.Behind, ((TabulatedPattern)read).Behind);
    });

    [Theory]
    [InlineData("", "use omni")]
    [InlineData("heart", "figure-8")]
    [InlineData("1.2", "omni share from 0")]
    [InlineData("-0.1", "omni share from 0")]
    [InlineData("measured", "is written")]
    [InlineData("measured 1 kHz: 0=0", "is written")]
    [InlineData("measured 1000 Hz: 0=0 90=x 180=0", "is written")]
    [InlineData("measured 1000 Hz: 0=0 90=-6", "at 0 and at 180 degrees")]
    [InlineData("measured 1000 Hz: 0=3 180=-6", "0 degrees must read 0 dB")]
    [InlineData("measured 1000 Hz: 0=0 200=-6", "between 0 and 180 degrees")]
    public void ATextThatIsNoPattern_IsRefusedWithWhatToWrite(string text, string said)
    {
        Assert.False(PatternText.TryParse(text, out _, out var rule));
        Assert.Contains(said, rule, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter", rule, StringComparison.Ordinal);
    }
}
