namespace Athwart.Metering.Portrait;

/// <summary>Which frames belong to which column: column c starts at ⌊c·frames/columns⌋.</summary>
internal readonly record struct ColumnLayout(long FrameCount, int Columns)
{
    /// <summary>The first frame of a column; for c = Columns, the end.</summary>
    public long Start(int column) => Columns == 0 ? 0 : (long)((Int128)FrameCount * column / Columns);
}
