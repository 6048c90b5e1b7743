using System.Text;
using Athwart.Microphones.Patterns;

namespace Athwart.Jobs.Tests.Kits;

/// <summary>What a spreadsheet may hand over: taken as it is meant, or refused with row, column, rule and remedy.</summary>
public sealed class CsvTests
{
    private const string Header = "name,pattern,sensitivity mV/Pa,noise dBA\n";

    [Fact]
    public void EveryColumnOfAMicrophone_IsRead()
    {
        var m = KitText.Microphone("""
            name,label,pattern,sensitivity mV/Pa,noise dBA,maximum level dB SPL,low end Hz,high end Hz,phantom mA,length mm,diameter mm,weight g,count,price,currency,owned,notes
            C1,wide,0.6,14.5,16,134,30,20000,3,105,20,75,2,140.50,EUR,yes,"lent, at times"
            """);
        Assert.Equal(("C1", 2, true, "lent, at times"), (m.Name, m.Count, m.Owned, m.Notes));
        Assert.Equal((3, 105, 20, 75), (m.PhantomMilliamperes, m.LengthMillimetres, m.DiameterMillimetres, m.WeightGrams));
        Assert.Equal(new(140.50m, "EUR"), m.Price);
        var s = Assert.Single(m.Settings);
        Assert.Equal(("wide", 14.5, 16, 134, 30, 20000), (s.Label, s.SensitivityMillivoltsPerPascal, s.EquivalentNoiseDecibelsA, s.MaximumLevelDecibels, s.LowHertz, s.HighHertz));
        Assert.Equal(new FirstOrderPattern(0.6), s.Pattern);
    }

    [Fact]
    public void EveryColumnOfARecorderAndAProtection_IsRead()
    {
        var r = Assert.Single(KitText.Accepted("""
            name,inputs,input noise dBu,maximum input dBu,minimum gain dB,maximum gain dB,gain step dB,phantom mA,battery h,battery with phantom h,storage GB,file split GiB,maximum rate Hz,weight g,decodes for monitoring,price,currency,owned,notes
            R4,4,−127,10,6,70,1,40,8,5,256,4,192000,720,TRUE,690,EUR,no,
            """).Recorders);
        Assert.Equal((4, -127, 10, 6, 70, 1, 40), (r.InputCount, r.EquivalentInputNoiseDecibelsU, r.MaximumInputDecibelsU, r.MinimumGainDecibels, r.MaximumGainDecibels, r.GainStepDecibels, r.PhantomMilliamperes));
        Assert.Equal((8, 5, 256, 4, 192000, 720), (r.BatteryHours, r.BatteryHoursWithPhantom, r.StorageGigabytes, r.SplitGibibytes, r.MaximumRateHertz, r.WeightGrams));
        Assert.True(r.DecodesForMonitoring);
        var p = Assert.Single(KitText.Accepted("name,inner length mm,inner diameter mm,weight g,low loss dB\ncage,210,95,340,1.5\n").Protections);
        Assert.Equal((210, 95, 340, 1.5), (p.InnerLengthMillimetres, p.InnerDiameterMillimetres, p.WeightGrams, p.LowFrequencyLossDecibels));
    }

    [Theory]
    [InlineData("name;pattern;noise dBA\nC1;cardioid;16,5\n")]
    [InlineData("name;pattern;noise dBA\nC1;cardioid;16.5\n")]
    [InlineData("name\tpattern\tnoise dBA\nC1\tcardioid\t16,5\n")]
    [InlineData("\uFEFFname,pattern,noise dBA\r\nC1,cardioid,16.5\r\n")]
    [InlineData("Name,Pattern,Noise [dBA]\n\"C1\",Cardioid, 16.5 \n\n,,\n")]
    [InlineData("name,pattern,noise (dBA),# serial number,\nC1,cardioid,16.5,4711,\n")]
    [InlineData("noise dBA,pattern,name\n16.5,cardioid,C1")]
    public void SemicolonsTabsDecimalCommasMarksAndBlanks_AreTakenAsTheyAreMeant(string text)
    {
        var m = KitText.Microphone(text);
        Assert.Equal("C1", m.Name);
        Assert.Equal(16.5, m.Settings[0].EquivalentNoiseDecibelsA);
        Assert.Equal(FirstOrderPattern.Cardioid, m.Settings[0].Pattern);
    }

    [Fact]
    public void ASharesDecimalComma_IsReadInAFileWithSemicolons() =>
        Assert.Equal(new FirstOrderPattern(0.3), KitText.Microphone("name;pattern\nX;0,3\n").Settings[0].Pattern);

    [Fact]
    public void QuotedDelimitersQuotesAndNewlines_StayInTheirCell_AndTheRowIsThatOfTheSpreadsheet()
    {
        var reading = KitText.Read("name,pattern,notes,noise dBA\n\"A, \"\"the\"\" one\",omni,\"two\nlines, and more\",16\nB,omni,,75\n");
        Assert.Equal("A, \"the\" one", reading.Kit.Microphones[0].Name);
        Assert.Equal("two\nlines, and more", reading.Kit.Microphones[0].Notes);
        Assert.Equal((3, "noise dBA", "B"), (Assert.Single(reading.Faults).Place.Row, reading.Faults[0].Place.Column, reading.Faults[0].Item));
    }

    [Theory]
    [InlineData("")]
    [InlineData("–")]
    [InlineData("-")]
    [InlineData("?")]
    public void WhatIsNotKnown_MayBeEmptyOrADash(string cell) =>
        Assert.Null(KitText.Microphone(Header + "C1,cardioid," + cell + ",16\n").Settings[0].SensitivityMillivoltsPerPascal);

    [Fact]
    public void SensitivityInDecibels_IsConverted()
    {
        // IEC 60268-4 writes the level against 1 V/Pa: 12.5 mV/Pa is −38.06 dB.
        Assert.Equal(12.5, KitText.Microphone("name,pattern,sensitivity dBV/Pa\nC1,cardioid,-38.0618\n").Settings[0].SensitivityMillivoltsPerPascal!.Value, 4);
        Assert.Contains("mV/Pa and in dBV/Pa", KitText.Fault("name,pattern,sensitivity mV/Pa,sensitivity dBV/Pa\nC1,cardioid,14,-38\n").Message, StringComparison.Ordinal);
        Assert.Equal("sensitivity dBV/Pa", KitText.Fault("name,pattern,sensitivity dBV/Pa\nC1,cardioid,38\n").Place.Column);
    }

    [Fact]
    public void RowsOfOneName_AreThePatternsOfOneBody()
    {
        var m = KitText.Microphone("name,label,pattern,noise dBA,weight g,owned\nM,omni,omni,9,480,yes\nM,eight,figure-8,12,,\n");
        Assert.Equal(["omni", "eight"], m.Settings.Select(s => s.Label), StringComparer.Ordinal);
        Assert.Equal((480, true), (m.WeightGrams, m.Owned));

        var fault = KitText.Fault("name,label,pattern,weight g\nM,omni,omni,480\nM,eight,figure-8,500\n");
        Assert.Equal((3, "weight g"), (fault.Place.Row, fault.Place.Column));
        Assert.Contains("Row 2 says '480'", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    // Impossible values
    [InlineData("name,pattern,noise dBA,maximum level dB SPL\nC1,omni,60,60\n", 2, "noise dBA", "is not below maximum level 60 dB SPL")]
    [InlineData(Header + "C1,cardioid,-14,16\n", 2, "sensitivity mV/Pa", "0.1 to 200 mV/Pa is plausible")]
    [InlineData("name,pattern,low end Hz,high end Hz\nC1,omni,2000,1500\n", 2, "low end Hz", "not below")]
    [InlineData("name,pattern,count\nC1,omni,1.5\n", 2, "count", "a whole number from 1 to 1000")]
    [InlineData("name,pattern,price,currency\nC1,omni,-5,EUR\n", 2, "price", "below 0")]
    [InlineData("name,pattern,price\nC1,omni,5\n", 2, "currency", "no currency")]
    [InlineData("name,pattern,currency\nC1,omni,EUR\n", 2, "currency", "without a price")]
    [InlineData("name,pattern,price,currency\nC1,omni,1e40,EUR\n", 2, "price", "cannot be")]
    [InlineData("name,pattern,owned\nC1,omni,perhaps\n", 2, "owned", "neither yes nor no")]
    [InlineData("name,pattern\nC1,kidney\n", 2, "pattern", "not understood")]
    [InlineData("name,pattern\nC1,\n", 2, "pattern", "is missing")]
    [InlineData("name,pattern\n,omni\n", 2, "name", "is empty")]
    // Numbers that would be a guess
    [InlineData(Header + "C1,cardioid,\"14,5\",16\n", 2, "sensitivity mV/Pa", "decimal comma or a sign for thousands")]
    [InlineData("name;pattern;high end Hz\nC1;omni;20.000\n", 2, "high end Hz", "fraction or thousands")]
    [InlineData("name;pattern;high end Hz\nC1;omni;20,000\n", 2, "high end Hz", "fraction or thousands")]
    [InlineData("name;pattern;high end Hz\nC1;omni;20.000,5\n", 2, "high end Hz", "a comma and a point")]
    [InlineData("name;pattern;noise dBA\nC1;omni;14,5\nC2;omni;14.5\n", 3, "noise dBA", "a point where other numbers")]
    [InlineData(Header + "C1,cardioid,14 mV/Pa,16\n", 2, "sensitivity mV/Pa", "is no number")]
    [InlineData(Header + "C1,cardioid,1e999,16\n", 2, "sensitivity mV/Pa", "is no number")]
    [InlineData(Header + "C1,cardioid,NaN,16\n", 2, "sensitivity mV/Pa", "is no number")]
    // Headers
    [InlineData("name,pattern,length cm\nC1,omni,10\n", 1, "length cm", "The unit 'cm' is not known for 'length': 'length mm' is.")]
    [InlineData("name,pattern,sensitivity dBu/Pa\nC1,omni,10\n", 1, "sensitivity dBu/Pa", "'sensitivity mV/Pa' or 'sensitivity dBV/Pa'")]
    [InlineData("name,pattern,length\nC1,omni,10\n", 1, "length", "does not say its unit")]
    [InlineData("name,pattern,nosie dBA\nC1,omni,16\n", 1, "nosie dBA", "the nearest is 'noise dBA'")]
    [InlineData("name,pattern,noise dBA,Noise (dBA)\nC1,omni,16,16\n", 1, "Noise (dBA)", "comes twice")]
    [InlineData("name,pattern,\nC1,omni,16\n", 1, null, "header is empty")]
    [InlineData("label,pattern\nC1,omni\n", 1, null, "no column 'name'")]
    [InlineData("name,noise dBA\nC1,16\n", 1, null, "no column 'pattern'")]
    [InlineData("name,price,currency\nC1,16,EUR\n", 1, null, "does not tell what the file holds")]
    [InlineData("C1;cardioid;14\n", 1, null, "does not tell what the file holds")]
    // Rows
    [InlineData(Header + "C1,cardioid,14,5,16\n", 2, null, "5 cells, but the header has 4")]
    [InlineData("name,pattern,notes\nC1,omni,\"open\nC2,omni,\n", 2, null, "never closed")]
    [InlineData("", null, null, "The file is empty")]
    [InlineData("name,inputs\nR,2\nr,4\n", 3, "name", "taken already at kit.csv, row 2")]
    [InlineData("name,label,pattern\nC1,a,omni\nc1,A,cardioid\n", 3, "label", "twice")]
    public void WhatCannotBeMeant_IsRefused_WithRowColumnRuleAndRemedy(string text, int? row, string? column, string said)
    {
        var reading = KitText.Read(text);
        var fault = reading.Faults.First(f => f.Message.Contains(said, StringComparison.Ordinal));
        Assert.Equal(("kit.csv", row, column), (fault.Place.File, fault.Place.Row, fault.Place.Column));
        Assert.EndsWith(".", fault.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryFaultOfAFile_IsNamedInOneGo()
    {
        var faults = KitText.Read("name,pattern,length cm,noise dBA,count\nC1,heart,10,75,0\nC2,omni,10,16,1\nC3,omni,10,x,1\n").Faults;
        Assert.Equal(
            ["1 length cm", "2 pattern", "2 count", "2 noise dBA", "4 noise dBA"],
            faults.Select(f => $"{f.Place.Row} {f.Place.Column}"), StringComparer.Ordinal);
    }

    [Fact]
    public void AFileThatIsNotUtf8_IsRefusedWithTheWayOut()
    {
        Assert.Contains("not UTF-8", Assert.Single(KitText.Read(Encoding.Latin1.GetBytes(Header + "Kö,omni,14,16\n")).Faults).Message, StringComparison.Ordinal);
        Assert.Equal(2, KitText.Read(Encoding.Latin1.GetBytes(Header + "Kö,omni,14,16\n")).Faults[0].Place.Row);
        Assert.Contains("UTF-16", Assert.Single(KitText.Read([0xFF, 0xFE, .. Encoding.Unicode.GetBytes(Header)]).Faults).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AFault_ReadsAsOneLine() => Assert.Equal(
        "kit.csv, row 2, column 'noise dBA' (C1): noise 75 dBA cannot be: 0 to 60 dBA is plausible, as the quietest large capsule reads about 5 dBA and a tiny one about 35. Check the number and its unit, or leave it empty when it is not known.",
        KitText.Fault(Header + "C1,cardioid,14,75\n").ToString());

    [Fact]
    public void AnUnusualValue_IsKeptAndRemarkedOn()
    {
        var reading = KitText.Read(Header + "C1,cardioid,14,42\n");
        Assert.Empty(reading.Faults);
        Assert.Equal((2, "noise dBA"), (Assert.Single(reading.Unusual).Place.Row, reading.Unusual[0].Place.Column));
    }
}
