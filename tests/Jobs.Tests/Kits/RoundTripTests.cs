using System.Text;
using Athwart.Jobs.Kits;
using CsCheck;

namespace Athwart.Jobs.Tests.Kits;

/// <summary>What is exported is imported as the same kit; what is not a kit ends in a list of faults and nothing else.</summary>
public sealed class RoundTripTests
{
    private static readonly bool Soak = Environment.GetEnvironmentVariable("ATHWART_SOAK") == "1";

    private static long Runs(long usual) => Soak ? usual * 100 : usual;

    [Fact]
    public void AnyKit_ExportedAsJson_IsImportedAsItself() => KitGenerators.Kit.Sample(
        kit => Assert.Equal(KitJson.Write(kit), KitJson.Write(KitText.Accepted(KitJson.Write(kit)))), iter: Runs(500));

    [Fact]
    public void AnyKit_ExportedAsCsv_IsImportedAsItself() => KitGenerators.Kit.Sample(
        kit =>
        {
            var reading = new KitReading();
            foreach (var (name, text) in CsvKitWriter.Write(kit))
                KitFiles.Read(name, Encoding.UTF8.GetBytes(text), reading);
            reading.Check();
            Assert.Empty(reading.Faults);
            Assert.Equal(KitJson.Write(kit), KitJson.Write(reading.Kit));
        },
        iter: Runs(500));

    [Fact]
    public void AnyBytes_EndInAKitOrInFaults() => Gen.Byte.Array[0, 200].Sample(bytes => Ends(bytes), iter: Runs(2000));

    [Fact]
    public void AnyTextOfTheSignsOfCsvAndJson_EndsInAKitOrInFaults() => KitGenerators.Among(
        "name", "pattern", "inputs", "inner length mm", "noise dBA", "price", "count", ",", ";", "\t", "\n", "\r", "\r\n", "\"", "\"\"", "14,5", "1.5", "-", "cardioid", "measured", "1000 Hz:", "0=0", " ", "#", "\0", "\uFEFF",
        "{", "}", "[", "]", ":", "\"format\":\"athwart-kit\",\"version\":1,", "\"microphones\":[", "\"settings\":[", "\"pattern\":", "\"name\":\"\\ud800\"", "1e999", "null", "true")
        .Array[0, 40].Sample(words => Ends(Encoding.UTF8.GetBytes(string.Concat(words))), iter: Runs(3000));

    [Fact]
    public void AnyDamageToAnExport_EndsInAKitOrInFaults() => Gen.Select(Gen.Int[0, 3], Gen.Int[0, 100_000], Gen.Byte, Gen.Int[0, 40]).Sample(
        (file, at, value, removed) =>
        {
            var whole = file == 3 ? Encoding.UTF8.GetBytes(KitJson.Write(DemoKit.Kit)) : Encoding.UTF8.GetBytes(CsvKitWriter.Write(DemoKit.Kit)[file].Text);
            var place = at % whole.Length;
            Ends([.. whole.AsSpan(0, place), value, .. whole.AsSpan(Math.Min(whole.Length, place + removed))]);
        },
        iter: Runs(1000));

    // Any other exception fails the test. What is accepted must also survive an export.
    private static void Ends(byte[] bytes)
    {
        var reading = KitText.Read(bytes);
        Assert.All(reading.Faults, f => Assert.True(f.Message.Length > 0 && f.Remedy.Length > 0));
        if (reading.Faults.Count == 0)
            KitText.Accepted(KitJson.Write(reading.Kit));
    }
}
