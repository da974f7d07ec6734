using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Rootgap.App;
using Rootgap.App.FitUp;
using Rootgap.App.Jobs;
using Rootgap.App.Look;
using Rootgap.App.Offline;
using Rootgap.App.Packets;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddScoped(_ => new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress) });
builder.Services.AddScoped<Microsoft.AspNetCore.Components.WebAssembly.Services.LazyAssemblyLoader>();
builder.Services.AddScoped<ProgramParts>();
builder.Services.AddScoped<PageScript>();
builder.Services.AddScoped<Choices>();
builder.Services.AddScoped<DeviceKey>();
builder.Services.AddScoped<LocalJob>();
builder.Services.AddScoped<ShopServer>();
builder.Services.AddScoped<Sync>();
builder.Services.AddScoped<OpenDrawings>();
builder.Services.AddScoped<Glances>();
builder.Services.AddScoped<FitPlans>();
builder.Services.AddScoped<Rootgap.App.Work.JobWork>();
// One bench for each kind of long work, so that a packet and a plan can be under way together.
builder.Services.AddKeyedScoped<Workbench>("packet");
builder.Services.AddKeyedScoped<Workbench>("cutting");
await builder.Build().RunAsync();
