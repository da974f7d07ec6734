using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Rootgap.App;
using Rootgap.App.FitUp;
using Rootgap.App.Jobs;
using Rootgap.App.Look;
using Rootgap.App.Offline;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddScoped(_ => new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress) });
builder.Services.AddScoped<PageScript>();
builder.Services.AddScoped<Choices>();
builder.Services.AddScoped<LocalJob>();
builder.Services.AddScoped<Sync>();
builder.Services.AddScoped<OpenDrawings>();
builder.Services.AddScoped<FitPlans>();
await builder.Build().RunAsync();
