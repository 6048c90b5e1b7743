using Athwart.Microphones.Patterns;

namespace Athwart.Jobs.Tests.Kits;

public sealed class JsonTests
{
    private const string Head = """{"format":"athwart-kit","version":1,""";

    [Fact]
    public void AMeasuredPattern_IsReadFromItsTable()
    {
        var kit = KitText.Accepted(Head + """
            "microphones":[{"name":"F","settings":[{"pattern":{"oppositeBehind":true,"table":[{"frequencyHertz":1000,"levels":[{"degrees":0,"decibels":0},{"degrees":90,"decibels":null},{"degrees":180,"decibels":-0.4,"opposite":true}]}]}}]}]}
            """);
        var table = Assert.IsType<TabulatedPattern>(kit.Microphones[0].Settings[0].Pattern);
        Assert.Equal(LobeBehind.Opposite, table.Behind);
        Assert.Equal(double.NegativeInfinity, table.Points[1].Level.Value);
        Assert.True(table.Points[2].Opposite);
    }

    [Theory]
    [InlineData("[]", "", "This is no kit")]
    [InlineData("{}", "", "This is no kit")]
    [InlineData("""{"format":"athwart-kit","version":2}""", "version", "reads version 1")]
    [InlineData("""{"format":"athwart-kit","version":1""", "line 1, byte 36", "This is no JSON")]
    [InlineData(Head + "\"microfones\":[]}", "microfones", "the nearest is 'microphones'")]
    [InlineData(Head + "\"recorders\":{}}", "recorders", "must be a list")]
    [InlineData(Head + "\"recorders\":[4]}", "recorders[0]", "must be an object")]
    [InlineData(Head + """ "recorders":[{"name":"R","inputCount":"2"}]}""", "recorders[0].inputCount", "must be a number")]
    [InlineData(Head + """ "recorders":[{"name":"R","inputCount":2,"inputCount":3}]}""", "recorders[0].inputCount", "comes twice")]
    [InlineData(Head + """ "recorders":[{"name":"R","inputcount":2}]}""", "recorders[0].inputcount", "the nearest is 'inputCount'")]
    [InlineData(Head + """ "recorders":[{"name":"R","batteryHours":1e999}]}""", "recorders[0].batteryHours", "ordinary size")]
    [InlineData(Head + """ "recorders":[{"name":"R","owned":"yes"}]}""", "recorders[0].owned", "true or false")]
    [InlineData(Head + """ "recorders":[{"name":"R","notes":"\ud800"}]}""", "recorders[0].notes", "must be a text")]
    [InlineData(Head + """ "recorders":[{"inputCount":2}]}""", "recorders[0].name", "is empty")]
    [InlineData(Head + """ "recorders":[{"name":"R"},{"name":"r"}]}""", "recorders[1].name", "taken already")]
    [InlineData(Head + """ "microphones":[{"name":"M"}]}""", "microphones[0].pattern", "at least one pattern")]
    [InlineData(Head + """ "microphones":[{"name":"M","settings":[{}]}]}""", "microphones[0].settings[0].pattern", "is missing")]
    [InlineData(Head + """ "microphones":[{"name":"M","settings":[{"pattern":"omni","equivalentNoiseDecibelsA":75}]}]}""", "microphones[0].settings[0].equivalentNoiseDecibelsA", "0 to 60 dBA")]
    [InlineData(Head + """ "microphones":[{"name":"M","settings":[{"pattern":{"table":[]}}]}]}""", "microphones[0].settings[0].pattern", "table is empty")]
    [InlineData(Head + """ "microphones":[{"name":"M","settings":[{"pattern":{"tabel":[]}}]}]}""", "microphones[0].settings[0].pattern", "frequencyHertz")]
    [InlineData(Head + """ "microphones":[{"name":"M","settings":[{"pattern":2}]}]}""", "microphones[0].settings[0].pattern", "not understood")]
    public void WhatCannotBeMeant_IsRefused_WithItsPathRuleAndRemedy(string text, string path, string said)
    {
        var fault = KitText.Fault(text);
        Assert.Equal(path, fault.Place.Path);
        Assert.Contains(said, fault.Message + fault.Remedy, StringComparison.Ordinal);
        Assert.NotEmpty(fault.Remedy);
    }
}
