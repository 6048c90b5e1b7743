using System.Text;
using Athwart.Jobs.Kits;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Tests.Kits;

/// <summary>Reads text as a file of a kit, without any file.</summary>
internal static class KitText
{
    public static KitReading Read(string text) => Read(Encoding.UTF8.GetBytes(text));

    public static KitReading Read(ReadOnlySpan<byte> bytes)
    {
        var reading = new KitReading();
        KitFiles.Read("kit.csv", bytes, reading);
        reading.Check();
        return reading;
    }

    public static Kit Accepted(string text)
    {
        var reading = Read(text);
        Assert.Empty(reading.Faults);
        return reading.Kit;
    }

    public static Microphone Microphone(string text) => Assert.Single(Accepted(text).Microphones);

    /// <summary>The only fault there is.</summary>
    public static KitFault Fault(string text) => Assert.Single(Read(text).Faults);
}
